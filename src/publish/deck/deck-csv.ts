import { logColumn, logColumns } from '../../log/columns/log-columns.js';
import { guardFormula } from '../../log/csv/formulas.js';
import {
  clockErrorAt,
  clockErrorText,
  clockRemark,
  stamp,
  utcOf,
  type ClockCheck,
} from './clock-checks.js';
import { faultOf, markFault, readingText, targetText, type DeckMark } from './mark.js';

/**
 * The columns of a deck sheet's file, in the order of the log's own. Not `sight`: the log makes one sight of the readings of a body
 * that follow each other, as a navigator does.
 */
const KEYS: ReadonlySet<string> = new Set([
  'round',
  'utcMs',
  'watchMs',
  'watchErrorS',
  'body',
  'limb',
  'readingDeg',
  'observer',
  'instrument',
  'indexErrorArcmin',
  'horizon',
  'eyeHeightM',
  'temperatureC',
  'pressureHpa',
  'positionKind',
  'latDeg',
  'lonDeg',
  'courseDeg',
  'speedKn',
  'accepted',
  'reason',
  'remarks',
]);
const columns = logColumns.filter((c) => KEYS.has(c.key));
/** Columns whose cells belong together: a latitude or a speed alone would have the row refused. */
const TOGETHER = [
  ['latDeg', 'lonDeg'],
  ['courseDeg', 'speedKn'],
];

const quoted = (cell: string): string => {
  const text = guardFormula(cell.replace(/\s*[\r\n]+\s*/g, ' '));
  return /[",]|^\s|\s$|^#/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

/** Conditions that a log can read, and in words those that it cannot: they go into the remarks. */
function sorted(mark: DeckMark): { good: Record<string, string>; rest: string[] } {
  const good: Record<string, string> = {};
  const rest: string[] = [];
  const alone = TOGETHER.filter((pair) =>
    pair.some((k) => !isGood(k, mark.conditions[k] ?? '')),
  ).flat();
  for (const [key, text] of Object.entries(mark.conditions)) {
    if (text.trim() === '' || !KEYS.has(key)) continue;
    if (isGood(key, text) && !alone.includes(key)) good[key] = text.trim();
    else rest.push(`${logColumn(key).head} as typed: ${text.trim()}`);
  }
  return { good, rest };
}

/** A short horizon needs its distance, for which the sheet has no place. */
const isGood = (key: string, text: string) =>
  text.trim() !== '' &&
  faultOf(key, text.trim()) === null &&
  !(key === 'horizon' && logColumn(key).read(text.trim()) === 'short');

function row(mark: DeckMark, checks: readonly ClockCheck[]): string {
  const error = clockErrorAt(checks, mark.deviceMs);
  const { good, rest } = sorted(mark);
  const cells: Record<string, string> = {
    ...good,
    utcMs: stamp(utcOf(checks, mark.deviceMs)),
    ...(error ? { watchMs: stamp(mark.deviceMs), watchErrorS: clockErrorText(error.fastS) } : {}),
    body: mark.body,
    limb: mark.limb,
    readingDeg: readingText(mark),
    ...(mark.isStruck ? { accepted: 'no', reason: 'struck out on deck' } : {}),
    remarks: [mark.remarks.trim(), clockRemark(error), ...rest].filter(Boolean).join('; '),
  };
  return columns.map((c) => quoted(cells[c.key] ?? '')).join(',');
}

const comment = (mark: DeckMark, number: number, checks: readonly ClockCheck[]): string =>
  `# mark ${number}, not complete: ${[
    `${stamp(utcOf(checks, mark.deviceMs))} UTC`,
    targetText(mark) || 'no body',
    readingText(mark) ? `reading as typed ${readingText(mark)}` : 'no reading',
    ...(mark.isStruck ? ['struck out'] : []),
    ...(mark.remarks.trim() ? [mark.remarks.trim().replace(/\s+/g, ' ')] : []),
    clockRemark(clockErrorAt(checks, mark.deviceMs)),
  ].join('; ')}`;

/**
 * The sheet as a sight log's CSV. Marks that lack a body or a readable reading stand at the end as comments, and what
 * a cell cannot take stands in the remarks: every row comes through `SightLog.fromCsv`, and nothing typed is left out.
 */
export function deckCsv(marks: readonly DeckMark[], checks: readonly ClockCheck[]): string {
  const numbered = marks.map((mark, i) => ({ mark, number: i + 1 }));
  const whole = numbered.filter(({ mark }) => markFault(mark) === null);
  const partial = numbered.filter(({ mark }) => markFault(mark) !== null);
  const head = columns.map((c) => quoted(c.unit ? `${c.head} (${c.unit})` : c.head)).join(',');
  const lines = [
    '# Deck sheet: times by the clock of the device, less its error at the time signal named in the remarks.',
    head,
    ...whole.map(({ mark }) => row(mark, checks)),
    ...partial.map(({ mark, number }) => comment(mark, number, checks)),
  ];
  return `${lines.join('\r\n')}\r\n`;
}
