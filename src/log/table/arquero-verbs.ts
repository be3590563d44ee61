import { ColumnTable } from 'arquero';

type Verb = (...args: never[]) => unknown;
/** What a verb of arquero takes. */
export type VerbArgs<K extends keyof ColumnTable> = ColumnTable[K] extends Verb
  ? Parameters<ColumnTable[K]>
  : never;

/** Verbs that keep the columns of a sight log, so that a sight log comes back. */
interface KeepingVerbs {
  assign(...args: VerbArgs<'assign'>): this;
  derive(...args: VerbArgs<'derive'>): this;
  filter(...args: VerbArgs<'filter'>): this;
  slice(...args: VerbArgs<'slice'>): this;
  groupby(...args: VerbArgs<'groupby'>): this;
  ungroup(...args: VerbArgs<'ungroup'>): this;
  orderby(...args: VerbArgs<'orderby'>): this;
  unorder(...args: VerbArgs<'unorder'>): this;
  relocate(...args: VerbArgs<'relocate'>): this;
  sample(...args: VerbArgs<'sample'>): this;
  dedupe(...args: VerbArgs<'dedupe'>): this;
  impute(...args: VerbArgs<'impute'>): this;
  lookup(...args: VerbArgs<'lookup'>): this;
  join_left(...args: VerbArgs<'join_left'>): this;
  semijoin(...args: VerbArgs<'semijoin'>): this;
  antijoin(...args: VerbArgs<'antijoin'>): this;
  concat(...args: VerbArgs<'concat'>): this;
  union(...args: VerbArgs<'union'>): this;
  intersect(...args: VerbArgs<'intersect'>): this;
  except(...args: VerbArgs<'except'>): this;
  reify(...args: VerbArgs<'reify'>): this;
  toCSV(...args: VerbArgs<'toCSV'>): string;
}

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

type Reshaped = keyof KeepingVerbs | keyof ReshapingVerbs;

/** An arquero table as a sight log extends it: verbs say whether a sight log comes back. */
export interface LogTable
  extends Omit<ColumnTable, Reshaped | 'create'>, KeepingVerbs, ReshapingVerbs {}

/** What arquero hands to `create`. */
export type CreateOptions = Parameters<ColumnTable['create']>[0];
export type TableArguments = ConstructorParameters<typeof ColumnTable>;

/** arquero's table class under the types above. */
export const ArqueroTable = ColumnTable as unknown as new (...args: TableArguments) => LogTable;
