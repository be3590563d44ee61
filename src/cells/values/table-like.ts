/** Most rows that a table shows without being asked. */
const ROWS = 50;

interface TableLike {
  numRows(): number;
  toHTML(options: { limit: number }): string;
}

function isTableLike(value: unknown): value is TableLike {
  if (typeof value !== 'object' || value === null) return false;
  const table = value as Partial<TableLike>;
  return typeof table.numRows === 'function' && typeof table.toHTML === 'function';
}

/** HTML of a data table (arquero's, or one like it), or null for any other value. */
export function tableHtml(value: unknown): string | null {
  if (!isTableLike(value)) return null;
  const rest = value.numRows() - ROWS;
  return value.toHTML({ limit: ROWS }) + (rest > 0 ? `<p>… and ${rest} more rows</p>` : '');
}
