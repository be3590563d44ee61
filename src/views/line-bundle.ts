import type { PositionLine } from '../core/line/index.js';
import type { MimeBundle } from './mime.js';
import { tableHtml, tableText } from './plain-table.js';
import { rowsTable } from './values/row.js';
import { lineFigures } from './values/value-rows.js';

/** The figures of one position line as a small table. */
export function positionLineBundle(line: PositionLine): MimeBundle {
  const caption = `Position line: ${line.body}, ${line.instant.toString()}`;
  const table = rowsTable(caption, [{ From: line.position.toString(), ...lineFigures(line) }]);
  return { 'text/html': tableHtml(table), 'text/plain': tableText(table) };
}
