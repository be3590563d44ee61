import type { LogTableData } from '../../log/index.js';
import { flag, list, oneOf, record, text, within, ViewDataError, type Check } from '../check.js';

const MOST_ROWS = 2000;

const sortKey: Check<number | string | null> = (value, path) => {
  if (value === null || (typeof value === 'number' && Number.isFinite(value))) return value;
  if (typeof value === 'string') return text(value, path);
  throw new ViewDataError(path, 'a number, a text or null', value);
};

const column = record({
  key: text,
  head: text,
  unit: text,
  align: oneOf('left', 'right', 'centre'),
});
const row = record({ cells: list(text, 60), sort: list(sortKey, 60), rejected: flag });
const fields = record({
  columns: list(column, 60),
  rows: list(row, MOST_ROWS),
  total: within(0, 1e9),
  summary: text,
});

/** Table data of a sight log out of a notebook file. @throws ViewDataError naming the field that is wrong */
export const checkLogTable = (value: unknown): LogTableData => fields(value, '');
