import { EntryError } from '../../core/units/index.js';
import type { LogColumn } from '../columns/column.js';
import { logColumns } from '../columns/log-columns.js';
import { nearest, plainWord } from '../../core/units/nearest-word.js';

/** What one column of a file is: one of ours, the date that belongs to a time, or a column of the user's own. */
export type HeadCell =
  | {
      readonly kind: 'known';
      readonly column: LogColumn;
      readonly unit?: string;
      readonly prefix?: string;
      readonly text: string;
    }
  | { readonly kind: 'date'; readonly text: string }
  | { readonly kind: 'own'; readonly key: string; readonly text: string };

/** Heads of a file by the name a sight log has for the column. */
export type HeadNames = Readonly<Record<string, string>>;

export interface LogHead {
  readonly cells: readonly HeadCell[];
  readonly notes: readonly string[];
}

const UNIT = /^(.*?)\s*(?:\(([^()]*)\)|\[([^[\]]*)\])\s*$/;

const byName = new Map<string, LogColumn>();
for (const column of logColumns)
  for (const name of [column.head, ...(column.aliases ?? [])]) byName.set(plainWord(name), column);
const allHeads = logColumns.map((c) => c.head);

/**
 * Understands the heads of a file. Heads not known are kept as columns of the user's own, and said so.
 * @throws EntryError when a head stands twice, a unit is not known, or a necessary column is missing
 */
export function readHead(texts: readonly string[], line: number, names?: HeadNames): LogHead {
  if (names) refuseNames(names, texts);
  const cells = texts.map((text, i) => ({
    ...headCell(nameOf(text, names ?? {}), i, line),
    text,
  }));
  refuseTwice(cells, line);
  refuseMissing(cells, line);
  return { cells, notes: ownNotes(cells, names !== undefined) };
}

/** A head as the file's own, or under the name the reader was told for it. */
function nameOf(text: string, names: HeadNames): string {
  const told = Object.entries(names).find(([head]) => sameHead(head, text));
  return told ? told[1] : text;
}

/** As all heads are compared; those without a letter or figure (`#`) sign by sign. */
const sameHead = (a: string, b: string) =>
  plainWord(a) === '' ? a.trim() === b.trim() : plainWord(a) === plainWord(b);

/** @throws EntryError when `columns` names a head that is not in the file, or a column that no sight log has */
function refuseNames(names: HeadNames, texts: readonly string[]): void {
  for (const [head, name] of Object.entries(names)) {
    if (!texts.some((text) => sameHead(text, head)))
      throw new EntryError(
        `No column of this file is headed '${head}'. Its heads are ${texts.filter(Boolean).join(', ')}.`,
        head,
      );
    if (!isKnown(name) && !isDate(name)) {
      const near = nearest(name, allHeads);
      throw new EntryError(
        `A sight log has no column '${name}'${near ? `; did you mean '${near}'?` : '.'} It has ${allHeads.join(', ')}.`,
        name,
      );
    }
  }
}

/** What the report says about heads that are not ours: those that nearly are, one by one, and all others together. */
function ownNotes(cells: readonly HeadCell[], canBeTold: boolean): string[] {
  const own = cells.flatMap((cell, i) => (cell.kind === 'own' ? [{ text: cell.text, i }] : []));
  const near = own.flatMap(({ text }) => {
    const word = nearest(text, allHeads);
    return word ? [{ text, word }] : [];
  });
  const rest = own.filter(({ text }) => !near.some((n) => n.text === text));
  const names = rest.map(({ text, i }) => (text === '' ? `column ${i + 1}, without a head` : text));
  const form = `SightLog.fromCsv(text, { columns: { '${rest.find(({ text }) => text)?.text}': 'observer' } })`;
  return [
    ...near.map(
      ({ text, word }) =>
        `The column '${text}' is not one of a sight log and is kept as it is; did you mean '${word}'?`,
    ),
    ...(names.length > 0
      ? [`Columns that a sight log does not know are kept as they are: ${names.join(', ')}.`]
      : []),
    ...(canBeTold && rest.some(({ text }) => text)
      ? [`If one of them is a column of the log by another name, say which, as in ${form}.`]
      : []),
  ];
}

/** How many of these texts are heads of ours: decides between delimiters. */
export function headsKnown(texts: readonly string[], names: HeadNames = {}): number {
  return texts.filter((text) => isKnown(nameOf(text, names))).length;
}

/** The column of ours that a head names, and the unit that bare numbers under it have; null for any other head. */
export function headEntry(text: string): { column: LogColumn; unit: string } | null {
  try {
    const cell = headCell(text, 0, 1);
    return cell.kind === 'known' && !cell.prefix
      ? { column: cell.column, unit: cell.unit ?? '' }
      : null;
  } catch (error) {
    if (!(error instanceof EntryError)) throw error;
    return null;
  }
}

function isKnown(text: string): boolean {
  const name = UNIT.exec(text)?.[1] ?? text;
  return byName.has(plainWord(text)) || byName.has(plainWord(name)) || isDate(text);
}

const isDate = (text: string) => /^date(?:\s*\(?UTC\)?)?$/i.test(text.trim());

function headCell(text: string, index: number, line: number): HeadCell {
  if (isDate(text)) return { kind: 'date', text };
  if (/^(?:index correction|IC)\b/i.test(text.trim()))
    return { kind: 'known', column: known('index error'), unit: '′', prefix: 'correction ', text };
  const whole = byName.get(plainWord(text));
  const split = UNIT.exec(text);
  if (whole && !split) return { kind: 'known', column: whole, text };
  const column = byName.get(plainWord(split?.[1] ?? '')) ?? whole;
  const unit = (split?.[2] ?? split?.[3] ?? '').trim();
  if (column) {
    if (whole && !column.units) return { kind: 'known', column: whole, text };
    return { kind: 'known', column, unit: headUnit(column, unit, text, line), text };
  }
  return { kind: 'own', key: ownKey(text, index), text };
}

const known = (head: string): LogColumn => byName.get(plainWord(head)) as LogColumn;

function headUnit(column: LogColumn, unit: string, text: string, line: number): string {
  if (unit === '' || /^(?:true|T|UTC|UT|GMT)$/i.test(unit)) return '';
  const same = (a: string) =>
    a
      .replace(/'/g, '′')
      .replace(/[º˚]|deg/g, '°')
      .toLowerCase();
  const found = column.units?.find((u) => same(u) === same(unit));
  if (found) return found;
  throw new EntryError(
    `Line ${line}: '${unit}' is not a unit known for ${column.head}. ${
      column.units ? `Write one of ${column.units.join(', ')}.` : 'That column has no unit.'
    }`,
    text,
  );
}

/** A key for a column of the user's own: `cloud cover` becomes `cloudCover`; never one of ours. */
function ownKey(text: string, index: number): string {
  const words = text
    .normalize('NFKD')
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);
  const camel = words
    .map((w, i) => (i === 0 ? w.charAt(0).toLowerCase() : w.charAt(0).toUpperCase()) + w.slice(1))
    .join('');
  const key = /^\p{L}/u.test(camel) ? camel : `column${index + 1}`;
  const taken = logColumns.some((c) => c.key === key || c.textKey === key);
  return taken || RESERVED.has(key) ? `${key}Own` : key;
}

/** Keys of a log that no file column feeds. */
const RESERVED = new Set([
  'line',
  'hoDeg',
  'hcDeg',
  'znDeg',
  'interceptNm',
  'residualArcmin',
  'sigmaArcmin',
  'influenceNm',
  'reference',
]);

function refuseTwice(cells: readonly HeadCell[], line: number): void {
  const seen = new Map<string, string>();
  for (const cell of cells) {
    const key = cell.kind === 'known' ? cell.column.key : cell.kind === 'own' ? cell.key : 'date';
    const earlier = seen.get(key);
    if (earlier !== undefined)
      throw new EntryError(
        `Line ${line}: two columns hold the same thing, '${earlier}' and '${cell.text}'. Give one of them another head.`,
        cells.map((c) => c.text).join(' | '),
      );
    seen.set(key, cell.text);
  }
}

/** A head for times that does not say whether they are UTC, the watch's or the zone's. */
const BARE_TIME = /^(?:time|time of day|clock|hour)s?$/i;

function refuseMissing(cells: readonly HeadCell[], line: number): void {
  const has = (key: string) => cells.some((c) => c.kind === 'known' && c.column.key === key);
  const missing = [
    ...(has('body') ? [] : ['body']),
    ...(has('readingDeg') ? [] : ['reading']),
    ...(has('utcMs') || has('watchMs') ? [] : ['UTC (or watch time with watch error)']),
  ];
  if (missing.length === 0) return;
  const heads = cells.map((c) => c.text);
  const time = cells.find((c) => c.kind === 'own' && BARE_TIME.test(c.text));
  const hints = missing.flatMap((m) => {
    if (time && m.startsWith('UTC'))
      return [` '${time.text}' does not say by what: head it UTC, or watch time.`];
    const near = nearest(
      m.split(' ')[0] ?? '',
      cells.filter((c) => c.kind === 'own').map((c) => c.text),
    );
    return near ? [` Is '${near}' meant for ${m}?`] : [];
  });
  throw new EntryError(
    `Line ${line}: the head of a sight log needs ${missing.join(' and ')}.${hints.join('')}`,
    heads.join(' | '),
  );
}
