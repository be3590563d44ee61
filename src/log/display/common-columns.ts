import type { LogTableData } from './log-table.js';

type Column = LogTableData['columns'][number];

/** `height of eye (m)` */
export const headOf = (c: Column): string => (c.unit ? `${c.head} (${c.unit})` : c.head);

/**
 * Takes out of a table the columns that say the same in every row: on paper they are said once above it, and the rest
 * has room. A table of one row, or of which nothing would be left, stays as it is.
 * @returns the columns that stay, by their places, and what all rows have in common: `height of eye (m) 2.6`
 */
export function commonColumns(data: LogTableData): { kept: readonly number[]; common: string[] } {
  const places = data.columns.map((_, i) => i);
  const said = (i: number): string | undefined => data.rows[0]?.cells[i] || undefined;
  const isCommon = (i: number) =>
    said(i) !== undefined && data.rows.every((row) => row.cells[i] === said(i));
  const common = data.rows.length > 1 && !places.every(isCommon) ? places.filter(isCommon) : [];
  return {
    kept: places.filter((i) => !common.includes(i)),
    common: common.map((i) => `${headOf(data.columns[i]!)} ${said(i)}`),
  };
}
