import { ColumnTable } from 'arquero';

type Verb = (...args: never[]) => unknown;
/** What a verb of arquero takes. */
export type VerbArgs<K extends keyof ColumnTable> = ColumnTable[K] extends Verb
  ? Parameters<ColumnTable[K]>
  : never;

/** Verbs that make another table of it; typed as such, even where a sight log may come back at run time. */
interface ReshapingVerbs {
  select(...args: VerbArgs<'select'>): ColumnTable;
  rename(...args: VerbArgs<'rename'>): ColumnTable;
  count(...args: VerbArgs<'count'>): ColumnTable;
  reduce(...args: VerbArgs<'reduce'>): ColumnTable;
  rollup(...args: VerbArgs<'rollup'>): ColumnTable;
  fold(...args: VerbArgs<'fold'>): ColumnTable;
  pivot(...args: VerbArgs<'pivot'>): ColumnTable;
  spread(...args: VerbArgs<'spread'>): ColumnTable;
  unroll(...args: VerbArgs<'unroll'>): ColumnTable;
  join(...args: VerbArgs<'join'>): ColumnTable;
  join_right(...args: VerbArgs<'join_right'>): ColumnTable;
  join_full(...args: VerbArgs<'join_full'>): ColumnTable;
  cross(...args: VerbArgs<'cross'>): ColumnTable;
}

/** What arquero hands to `create`. */
export type CreateOptions = Parameters<ColumnTable['create']>[0];

/** arquero's table class, with verbs that do not keep a sight log typed so. */
export const ArqueroTable = ColumnTable as unknown as new (
  ...args: ConstructorParameters<typeof ColumnTable>
) => ReshapingVerbs & ColumnTable;
