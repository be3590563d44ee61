import type { RowValues } from '../../log/amend/row-store.js';

const TIME_ALONE = /^([01]?\d|2[0-3])[:.\s]([0-5]\d)[:.\s]([0-5]\d)$/;
const DATE_FIRST = /^\s*(\d{4}-\d\d-\d\d)\b/;

/**
 * A time typed without its date gets the date that stood in the entry, else that of the reading, or for a new one that of the reading
 * before it.
 */
export function completed(
  name: string,
  text: string,
  row: RowValues | undefined,
  stood = '',
): string {
  if (name !== 'utc' && name !== 'watch') return text;
  const m = TIME_ALONE.exec(text);
  const ms = row?.[name === 'utc' ? 'utcMs' : 'watchMs'] ?? row?.['utcMs'];
  const date =
    DATE_FIRST.exec(stood)?.[1] ??
    (typeof ms === 'number' ? new Date(ms).toISOString().slice(0, 10) : undefined);
  if (!m || !date) return text;
  return `${date} ${(m[1] as string).padStart(2, '0')}:${m[2]}:${m[3]}`;
}
