import { describe, expect, it } from 'vitest';
import { EntryError, SightLog } from '../../src/index.js';

const HEAD =
  'UTC,body,limb,reading,observer,sextant,index error,horizon,horizon distance,height of eye,temperature,pressure,position,latitude,longitude,course,speed,sea,accepted,reason,remarks';
const GOOD: Readonly<Record<string, string>> = {
  UTC: '2027-05-11 09:42:17',
  body: 'Sun',
  limb: 'lower',
  reading: '41°18.6′',
  observer: 'A',
  sextant: '1',
  'index error': '1.4′ off the arc',
  horizon: 'natural',
  'horizon distance': '',
  'height of eye': '2.6 m',
  temperature: '21 °C',
  pressure: '1016 hPa',
  position: 'DR',
  latitude: '19°31.0′ S',
  longitude: '001°12.0′ W',
  course: '312°',
  speed: '5.2 kn',
  sea: 'slight',
  accepted: '',
  reason: '',
  remarks: '',
};

/** A sound row with some cells changed; each row has its own second, so that none repeats another. */
function row(second: number, changes: Readonly<Record<string, string>> = {}): string {
  const time = `2027-05-11 09:${String(10 + Math.floor(second / 60)).padStart(2, '0')}:${String(second % 60).padStart(2, '0')}`;
  const cells = { ...GOOD, UTC: time, ...changes };
  return HEAD.split(',')
    .map((head) => cells[head as keyof typeof cells] ?? '')
    .join(',');
}

interface Damage {
  readonly kind: string;
  /** Cells changed, or what happens to the whole line. */
  readonly cells?: Readonly<Record<string, string>>;
  readonly line?: (sound: string) => string;
  /** Head of the column that the report must name; null for the whole row. */
  readonly head: string | null;
  readonly says: RegExp;
  /** The row stays in the log and is only worth a look. */
  readonly query?: true;
}

const DAMAGE: readonly Damage[] = [
  {
    kind: 'sixty minutes and more',
    cells: { reading: '41°68.6′' },
    head: 'reading',
    says: /under 60/,
  },
  { kind: 'no reading', cells: { reading: '' }, head: 'reading', says: /reading is missing/ },
  {
    kind: 'a letter O for a nought',
    cells: { reading: '4O°18.6′' },
    head: 'reading',
    says: /letter O or l/,
  },
  {
    kind: 'degrees alone, minutes forgotten',
    cells: { reading: '41' },
    head: 'reading',
    says: /degrees or minutes/,
  },
  {
    kind: 'more than the arc can read',
    cells: { reading: '171°18.6′' },
    head: 'reading',
    says: /150°/,
  },
  {
    kind: 'a file in another encoding',
    cells: { reading: '41Â°18.6â€²' },
    head: 'reading',
    says: /encoding/,
  },
  {
    kind: 'a body that there is not',
    cells: { body: 'Son' },
    head: 'body',
    says: /Did you mean Sun/,
  },
  { kind: 'no body', cells: { body: '' }, head: 'body', says: /body is missing/ },
  {
    kind: 'no limb of the Sun',
    cells: { limb: '' },
    head: 'limb',
    says: /limb of the Sun is missing/,
  },
  {
    kind: 'the limb of a star',
    cells: { body: 'Canopus', limb: 'upper' },
    head: 'limb',
    says: /Canopus has no upper limb/,
  },
  {
    kind: 'an unknown word for the limb',
    cells: { limb: 'bottom' },
    head: 'limb',
    says: /lower, upper or centre/,
  },
  {
    kind: 'a day that there is not',
    cells: { UTC: '2027-06-31 09:42:17' },
    head: 'UTC',
    says: /30 days/,
  },
  {
    kind: 'day and month in doubt',
    cells: { UTC: '05/06/2027 09:42:17' },
    head: 'UTC',
    says: /day and month/,
  },
  { kind: 'an hour 25', cells: { UTC: '2027-05-11 25:42:17' }, head: 'UTC', says: /Hours run/ },
  { kind: 'no date', cells: { UTC: '09:42:17' }, head: 'UTC', says: /date is missing/ },
  {
    kind: 'no seconds, the month by name',
    cells: { UTC: '11 May 2027 09:42' },
    head: 'UTC',
    says: /seconds are missing/,
  },
  {
    kind: 'no seconds',
    cells: { UTC: '2027-05-11 09:42' },
    head: 'UTC',
    says: /seconds are missing/,
  },
  {
    kind: 'zone time',
    cells: { UTC: '2027-05-11T11:42:17+02:00' },
    head: 'UTC',
    says: /zone offset/,
  },
  {
    kind: 'an index error without its side',
    cells: { 'index error': '1.4′' },
    head: 'index error',
    says: /on or off the arc/,
  },
  {
    kind: 'a height without its unit',
    cells: { 'height of eye': '2.6' },
    head: 'height of eye',
    says: /no unit/,
  },
  {
    kind: 'an unknown unit',
    cells: { 'height of eye': '2 fathoms' },
    head: 'height of eye',
    says: /not a unit/,
  },
  {
    kind: 'an eye below the water',
    cells: { 'height of eye': '−2.6 m' },
    head: 'height of eye',
    says: /between 0 and 100 m/,
  },
  {
    kind: 'a shore horizon without its distance',
    cells: { horizon: 'short' },
    head: 'horizon distance',
    says: /needs its distance/,
  },
  {
    kind: 'a pressure that cannot be',
    cells: { pressure: '1.016 hPa' },
    head: 'pressure',
    says: /600 and 1090/,
  },
  {
    kind: 'a temperature of no scale',
    cells: { temperature: '21°' },
    head: 'temperature',
    says: /which scale/,
  },
  {
    kind: 'a latitude without its name',
    cells: { latitude: '19' },
    head: 'latitude',
    says: /degrees or minutes/,
  },
  {
    kind: 'a latitude beyond the pole',
    cells: { latitude: '91°31.0′ S' },
    head: 'latitude',
    says: /exceed 90/,
  },
  {
    kind: 'a latitude without longitude',
    cells: { longitude: '' },
    head: 'longitude',
    says: /without a longitude/,
  },
  { kind: 'a magnetic course', cells: { course: '312° M' }, head: 'course', says: /magnetic/ },
  {
    kind: 'a speed without a course',
    cells: { course: '' },
    head: 'course',
    says: /without a course/,
  },
  {
    kind: 'a cell too few',
    line: (s) => s.slice(0, s.lastIndexOf(',')),
    head: 'reason',
    says: /20 cells and the head 21.*'remarks'/,
  },
  {
    kind: 'a comma in a remark',
    cells: { remarks: 'haze, swell' },
    head: null,
    says: /22 cells and the head 21.*quotation/,
  },
  {
    kind: 'a decimal comma between commas',
    cells: { pressure: '1016,2 hPa' },
    head: null,
    says: /decimal comma/,
  },
  {
    kind: 'a quotation mark left open',
    cells: { remarks: '"haze' },
    head: 'remarks',
    says: /never closed/,
  },
  {
    kind: 'text after the closing mark',
    cells: { remarks: '"haze" in the west' },
    head: 'remarks',
    says: /after the closing/,
  },
  {
    kind: 'neither yes nor no',
    cells: { accepted: 'perhaps' },
    head: 'accepted',
    says: /yes or no/,
  },
  { kind: 'a broken byte', cells: { remarks: 'h\uFFFDze' }, head: 'remarks', says: /encoding/ },
  {
    kind: 'not used, no reason',
    cells: { accepted: 'no' },
    head: 'accepted',
    says: /no reason/,
    query: true,
  },
  {
    kind: 'a back sight or a doubled angle',
    cells: { reading: '118°18.6′' },
    head: 'reading',
    says: /over 95°/,
    query: true,
  },
];

/** Sound rows between the damaged ones, so that a fault that spreads is seen. */
function file(lineEnd: string): { text: string; lines: string[] } {
  const lines = ['# a log with damage', HEAD];
  DAMAGE.forEach((d, i) => {
    lines.push(row(2 * i));
    const damaged = row(2 * i + 1, d.cells);
    lines.push(d.line ? d.line(damaged) : damaged);
  });
  lines.push(row(2 * DAMAGE.length), '', '   ');
  return { text: lines.join(lineEnd) + lineEnd, lines };
}

describe.each([
  ['LF', '\n'],
  ['CRLF', '\r\n'],
])(`a log with ${DAMAGE.length} kinds of damage, lines ending in %s`, (_, lineEnd) => {
  const { text, lines } = file(lineEnd);
  const log = SightLog.fromCsv('\uFEFF' + text);
  const { report } = log;

  it.each(DAMAGE.map((d, i) => [d.kind, d, i] as const))('reports %s', (_kind, damage, i) => {
    const line = 4 + 2 * i;
    const findings = damage.query
      ? report.queries.filter((f) => f.line === line)
      : report.refused.filter((r) => r.line === line).flatMap((r) => r.findings);
    expect(findings).toHaveLength(1);
    const column =
      damage.head === null ? HEAD.split(',').length + 1 : HEAD.split(',').indexOf(damage.head) + 1;
    expect(findings[0]).toMatchObject({ line, column });
    expect(findings[0]?.reason).toMatch(damage.says);
    if (damage.head !== null) expect(findings[0]?.head).toBe(damage.head);
    const cell = damage.head !== null && damage.cells?.[damage.head];
    if (cell) expect(findings[0]?.text.replaceAll('"', '')).toBe(cell.replaceAll('"', ''));
  });

  it('reports nothing else', () => {
    const refusals = DAMAGE.filter((d) => !d.query).length;
    expect(report.refused).toHaveLength(refusals);
    expect(report.queries).toHaveLength(DAMAGE.length - refusals);
    expect(report.rows).toBe(2 * DAMAGE.length + 1);
    expect(log.numRows()).toBe(report.rows - refusals);
  });

  it('keeps every damaged row letter by letter, and every sound one in the log', () => {
    const kept = new Set([
      ...report.refused.map((r) => r.text),
      ...log.readings().map((r) => lines[(r.line ?? 0) - 1]),
    ]);
    for (const line of lines.slice(2)) if (line.trim()) expect(kept).toContain(line);
  });

  it('writes the refused rows into its own CSV, so that they survive another round', () => {
    const again = SightLog.fromCsv(log.toCsv());
    for (const { text: refused } of report.refused)
      expect(again.preamble).toContain(`# refused text: ${JSON.stringify(refused)}`);
  });
});

describe('a file that is no sight log', () => {
  it.each([
    ['', /no head/],
    ['# only a comment\n', /no head/],
    ['UTC,body\n', /needs reading/],
    ['UTC,body,reading,hs\n', /two columns hold the same thing/],
    ['UTC,body,reading,height of eye (fathoms)\n', /not a unit known for height of eye/],
    ['UTC,body,raeding\n', /'raeding' meant for reading/],
    ['UTC,"body,reading\n', /never closed/],
  ])('%j is refused with the reason', (text, reason) => {
    expect(() => SightLog.fromCsv(text)).toThrow(EntryError);
    expect(() => SightLog.fromCsv(text)).toThrow(reason);
  });
});
