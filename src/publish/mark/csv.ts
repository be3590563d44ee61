/** A cell of a CSV file (RFC 4180), harmless when a spreadsheet opens it: what would be a formula becomes text. */
export function csvCell(value: string | number): string {
  const text = String(value).replace(/[\r\n]+/g, ' ');
  // A minus sign before a figure of ours is no formula; a text that starts like one is.
  const safe = typeof value === 'string' && /^[=+\-@\t|%]/.test(text) ? `'${text}` : text;
  return /[",;']/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

export const csvText = (rows: readonly (readonly (string | number)[])[]): string =>
  `\uFEFF${rows.map((row) => row.map(csvCell).join(',')).join('\r\n')}\r\n`;
