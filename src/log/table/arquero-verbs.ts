import { ColumnTable } from 'arquero';

type Verb = (...args: never[]) => unknown;
/** What a verb of arquero takes. */
export type VerbArgs<K extends keyof ColumnTable> = ColumnTable[K] extends Verb
  ? Parameters<ColumnTable[K]>
  : never;

/** Verbs that make another table of it; typed as such, even where a sight log may come back at run time. */
interface ReshapingVerbs {
  /** Only some columns (arquero’s verb `select`). */
  select(...args: VerbArgs<'select'>): ColumnTable;
  /** Columns under other names (arquero’s verb `rename`). */
  rename(...args: VerbArgs<'rename'>): ColumnTable;
  /** How many rows, by group (arquero’s verb `count`). */
  count(...args: VerbArgs<'count'>): ColumnTable;
  /** One value from all rows of a group (arquero’s verb `reduce`). */
  reduce(...args: VerbArgs<'reduce'>): ColumnTable;
  /** One row a group, with figures of it (arquero’s verb `rollup`). */
  rollup(...args: VerbArgs<'rollup'>): ColumnTable;
  /** Columns turned into rows of key and value (arquero’s verb `fold`). */
  fold(...args: VerbArgs<'fold'>): ColumnTable;
  /** Rows of key and value turned into columns (arquero’s verb `pivot`). */
  pivot(...args: VerbArgs<'pivot'>): ColumnTable;
  /** A column of lists turned into several columns (arquero’s verb `spread`). */
  spread(...args: VerbArgs<'spread'>): ColumnTable;
  /** A column of lists turned into a row each (arquero’s verb `unroll`). */
  unroll(...args: VerbArgs<'unroll'>): ColumnTable;
  /** Rows of two tables that match (arquero’s verb `join`). */
  join(...args: VerbArgs<'join'>): ColumnTable;
  /** All rows of the other table, with those of this that match (arquero’s verb `join_right`). */
  join_right(...args: VerbArgs<'join_right'>): ColumnTable;
  /** All rows of both tables, matched where they can be (arquero’s verb `join_full`). */
  join_full(...args: VerbArgs<'join_full'>): ColumnTable;
  /** Every row of one table with every row of the other (arquero’s verb `cross`). */
  cross(...args: VerbArgs<'cross'>): ColumnTable;
}

/** What arquero hands to `create`. */
export type CreateOptions = Parameters<ColumnTable['create']>[0];

/** arquero's table class, with verbs that do not keep a sight log typed so. */
export const ArqueroTable = ColumnTable as unknown as new (
  ...args: ConstructorParameters<typeof ColumnTable>
) => ReshapingVerbs & ColumnTable;
