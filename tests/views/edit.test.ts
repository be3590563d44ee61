import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amendmentNames, readAmendments } from '../../src/log/amend/read-code.js';
import { checkEditData, editData } from '../../src/views/edit/edit-data.js';
import { pasted } from '../../src/views/edit/pasted.js';
import { Sheet, type SheetRow } from '../../src/views/edit/sheet.js';
import { MIME, DISPLAY } from '../../src/views/mime.js';
import { editLog, simulatePracticeAfternoon, SightLog } from '../../src/index.js';

const CSV = simulatePracticeAfternoon(3).csv;
const names = { log: 'log', as: 'amended' };
const open = () => {
  const log = SightLog.fromCsv(CSV);
  return { log, sheet: new Sheet(checkEditData(JSON.parse(JSON.stringify(editData(log, names))))) };
};
/** What the generated cell makes of the log when it is run. */
const run = (code: string, log: SightLog): SightLog =>
  new Function('log', `${code}\nreturn amended;`)(log) as SightLog;
const written = (log: SightLog) => log.readings().map((r) => ({ ...r, line: null }));

/** One move of a reader: any entry of any row gets sound or unsound text, rows are marked, moves are undone. */
const id = fc.oneof(fc.integer({ min: 1, max: 12 }).map(String), fc.constant('blank'));
const entry = fc.oneof(
  fc.tuple(
    fc.constant('reading'),
    fc.constantFrom('34°17.6′', '34 17.6', '12° 3', '34°71.6′', 'x', ''),
  ),
  fc.tuple(fc.constant('utc'), fc.constantFrom('2027-05-01 14:03:22', '14:05:01', '14:05', '')),
  fc.tuple(fc.constant('body'), fc.constantFrom('Sun', 'Vega', 'moon', 'Wega', '')),
  fc.tuple(fc.constant('limb'), fc.constantFrom('lower', 'UL', '', 'left')),
  fc.tuple(fc.constant('watch'), fc.constantFrom('2027-05-01 14:03:30', '14:05:09', '')),
  fc.tuple(fc.constant('watchError'), fc.constantFrom('8 s fast', '3 s slow', '')),
  fc.tuple(fc.constant('observer'), fc.constantFrom('A', 'B', '')),
  fc.tuple(fc.constant('eyeHeight'), fc.constantFrom('2.6', '9 ft', '300 m', '')),
  fc.tuple(
    fc.constant('remarks'),
    fc.string({ maxLength: 8 }).map((t) => t.trim()),
  ),
);
const step = fc.oneof(
  { weight: 6, arbitrary: fc.record({ do: fc.constant('enter' as const), id, entry }) },
  fc.record({
    do: fc.constant('reject' as const),
    ids: fc.array(id, { maxLength: 3 }),
    reason: fc.constantFrom('haze', "swell, 'big'", ''),
  }),
  fc.record({ do: fc.constant('accept' as const), ids: fc.array(id, { maxLength: 3 }) }),
  fc.record({
    do: fc.constant('group' as const),
    ids: fc.array(id, { maxLength: 3 }),
    sight: fc.constantFrom('', '9'),
  }),
  fc.record({ do: fc.constantFrom('undo' as const, 'redo' as const, 'settle' as const) }),
);

type Step = typeof step extends fc.Arbitrary<infer T> ? T : never;
function make(sheet: Sheet, s: Step): void {
  const at = (x: string) => (x === 'blank' ? sheet.blank : x);
  if (s.do === 'enter') sheet.enter([[at(s.id), { [s.entry[0]]: s.entry[1] }]]);
  else if (s.do === 'reject') sheet.reject(s.ids.map(at), s.reason);
  else if (s.do === 'accept') sheet.accept(s.ids.map(at));
  else if (s.do === 'group') sheet.group(s.ids.map(at), s.sight);
  else sheet[s.do]();
}
/** The log that the sheet shows: what the grid holds of readings that are in the log. */
const shown = (sheet: Sheet) =>
  sheet
    .rows()
    .filter((r) => !r.id.startsWith('new'))
    .map((r) => [r.id, { ...r.texts, ...sheet.standing(r.id) }, r.rejected]);

/** The same without entries that are empty. */
const full = (sheet: Sheet) =>
  shown(sheet).map(([id, texts, rejected]) => [
    id,
    Object.fromEntries(Object.entries(texts as object).filter(([, text]) => text !== '')),
    rejected,
  ]);

describe('a log being amended', () => {
  it('any moves: the code, run on the log as read, gives the log that is shown', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 25 }), (steps) => {
        const { log, sheet } = open();
        for (const s of steps) make(sheet, s);
        const amended = run(sheet.code(), log);
        const again = new Sheet(editData(amended, names));
        expect(full(again)).toEqual(full(sheet));
        expect(written(SightLog.fromCsv(amended.toCsv()))).toEqual(written(amended));
      }),
      { numRuns: 25 },
    );
  });

  it('any moves: everything undone gives the log as read, done again what was; kept and restored, or read from the code, the same', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 15 }), (steps) => {
        const { sheet } = open();
        for (const s of steps) make(sheet, s);
        const code = sheet.code();
        const restored = open().sheet;
        expect(restored.restore(JSON.parse(JSON.stringify(sheet.kept())))).toEqual([]);
        expect(restored.code()).toBe(code);
        const fromCode = open().sheet;
        const read = readAmendments(code);
        expect(amendmentNames(code)).toEqual(names);
        fromCode.restore({
          moves: read?.amendments.map((a) => [a]) ?? [],
          drafts: read?.drafts ?? [],
        });
        expect(fromCode.code()).toBe(code);
        while (sheet.canUndo) sheet.undo();
        expect(sheet.code().split('\n')).toHaveLength(3);
        expect(full(sheet)).toEqual(full(open().sheet));
      }),
      { numRuns: 25 },
    );
  });

  it('any moves on the same few readings: however they were joined, the code gives the log that is shown', () => {
    const fewer = (x: string) => ['1', '2', '13'][Number(x) % 3] ?? x;
    const here = step.map((s): Step => {
      if (s.do === 'enter') return { ...s, id: fewer(s.id) };
      return 'ids' in s ? { ...s, ids: s.ids.map(fewer) } : s;
    });
    fc.assert(
      fc.property(fc.array(here, { minLength: 10, maxLength: 40 }), (steps) => {
        const { log, sheet } = open();
        for (const s of steps) make(sheet, s);
        const code = sheet.code();
        expect(full(new Sheet(editData(run(code, log), names)))).toEqual(full(sheet));
        const again = open().sheet;
        const read = readAmendments(code);
        again.restore({
          moves: read?.amendments.map((a) => [a]) ?? [],
          drafts: read?.drafts ?? [],
        });
        expect(again.code()).toBe(code);
      }),
      { numRuns: 40 },
    );
  });

  it('amendments of one reading are one line with the last text of each entry, and can be undone one by one', () => {
    const { log, sheet } = open();
    const lines = () => sheet.code().split('\n').slice(2, -1);
    const was = sheet.row('3').texts;
    sheet.enter([['3', { reading: '34°17.6′' }]]);
    sheet.enter([['4', { remarks: 'swell' }]]);
    sheet.reject(['3'], 'haze');
    sheet.enter([['3', { remarks: 'cloud' }]]);
    const one = sheet.code();
    sheet.enter([['3', { reading: '34°18.0′' }]]);
    expect(lines()).toHaveLength(3);
    expect(lines()[0]).toBe(
      `  book.correct('${sheet.label('3')}', { reading: { was: '${was['reading']}', is: '34°18.0′' }, remarks: { was: '', is: 'cloud' } });`,
    );
    sheet.reject(['3', '4'], 'hazy, both');
    expect(lines()).toHaveLength(3);
    expect(run(sheet.code(), log).readings()[2]).toMatchObject({
      readingText: '34°18.0′',
      remarks: 'cloud',
      reason: 'hazy, both',
    });
    sheet.undo();
    sheet.undo();
    expect(sheet.code()).toBe(one);
    sheet.enter([['3', { reading: was['reading'] ?? '', remarks: '' }]]);
    expect(lines()).toHaveLength(2);
    expect(lines().join()).not.toContain("book.correct('3 ");

    sheet.enter([[sheet.blank, { utc: '15:20:30', body: 'Sun', limb: 'lower', reading: '30°' }]]);
    sheet.settle();
    const added = String(log.numRows() + 1);
    sheet.enter([[added, { reading: '30°12.4′' }]]);
    sheet.enter([[added, { remarks: 'swell' }]]);
    expect(lines().at(-1)).toMatch(/book\.add\(\{.* reading: '30°12\.4′', remarks: 'swell' \}\);$/);
    expect(lines()).toHaveLength(3);
  });

  it('what is not taken stays as it was typed, with the sentence, in the code as a comment', () => {
    const { sheet } = open();
    sheet.enter([['3', { reading: '34°71.6′' }]]);
    const row = sheet.row('3');
    expect(row.texts['reading']).toBe('34°71.6′');
    expect(row.findings[0]?.reason).toMatch(/60/);
    expect(sheet.code()).toMatch(/\/\/ not taken: '3 Sun [\d:]+', \{ reading: '34°71.6′' \}/);
    expect(sheet.judge('3', 'reading', '34°17.6′')).toBeNull();
    sheet.enter([['3', { reading: '34°17.6′' }]]);
    expect(sheet.openDrafts()).toEqual([]);
    expect(sheet.code()).toContain("is: '34°17.6′'");
  });

  it('a new reading goes into the log when its row is left, a time without its date gets that of the last reading', () => {
    const { log, sheet } = open();
    const at = sheet.blank;
    sheet.enter([[at, { utc: '15:20:30', body: 'Sun' }]]);
    sheet.enter([[at, { limb: 'lower', reading: '30°12.4′' }]]);
    sheet.settle(at);
    expect(sheet.amendments).toEqual([]);
    sheet.settle();
    const amended = run(sheet.code(), log);
    expect(amended.numRows()).toBe(log.numRows() + 1);
    expect(amended.readings().at(-1)?.utcText?.slice(0, 10)).toBe(
      log.readings().at(-1)?.utcText?.slice(0, 10),
    );
  });

  it('blocks of a spreadsheet: cells over readings, and with heads as new readings', () => {
    expect(pasted('34°17.6′\tA\r\n34°19.0′\t"B, too"\n').cells).toEqual([
      ['34°17.6′', 'A'],
      ['34°19.0′', 'B, too'],
    ]);
    expect(pasted('Sun, with haze').cells).toEqual([['Sun, with haze']]);
    expect(pasted('a;b\nc;d').cells).toEqual([
      ['a', 'b'],
      ['c', 'd'],
    ]);
    const block = pasted('UTC,body,hs,HE (ft),weather\n2027-05-01 15:20:30,Vega,30°12.4′,9,fine');
    expect(block.named).toEqual([
      { utc: '2027-05-01 15:20:30', body: 'Vega', reading: '30°12.4′', eyeHeight: '9 ft' },
    ]);
    const { log, sheet } = open();
    expect(sheet.paste([], block.named ?? [])).toBe(1);
    expect(sheet.paste(['1', '2'], [{ reading: '30°' }, { reading: 'x' }, { body: 'Sun' }])).toBe(
      1,
    );
    expect(run(sheet.code(), log).readings().at(-1)).toMatchObject({
      body: 'Vega',
      eyeHeightText: '9 ft',
    });
    expect(sheet.openDrafts()).toHaveLength(2);
    sheet.undo();
    expect(sheet.openDrafts()).toHaveLength(0);
  });

  it('kept amendments that do not fit the log any more are given back with the reason', () => {
    const { sheet } = open();
    const misfits = sheet.restore({
      moves: [[{ kind: 'reject', which: ['1 Vega 01:00:00'], reason: 'haze' }]],
      drafts: [],
    });
    expect(misfits[0]?.reason).toMatch(/not the one this was written for/);
  });
});

describe('the editor as a value', () => {
  it('takes one log by its name', () => {
    const { log } = open();
    const bundle = (editLog({ log }) as unknown as { [DISPLAY](): Record<string, unknown> })[
      DISPLAY
    ]();
    expect(bundle[MIME.edit]).toMatchObject({ log: 'log', as: 'amended' });
    expect(() => editLog({ 'a b': log })).toThrow(/no name for a variable/);
    expect(() => editLog({ log }, { as: 'log' })).toThrow(/name of its own/);
    expect(() => editLog({ a: log, b: log })).toThrow(/one sight log/);
  });

  it('data of anyone are bounded, and their names cannot be code', () => {
    const data = editData(SightLog.fromCsv(CSV), names);
    for (const bad of [
      { ...data, as: 'x; alert(1)//' },
      { ...data, log: 'a.b' },
      { ...data, entries: ['constructor'] },
      { ...data, own: [{ key: '__proto__', head: '' }] },
      { ...data, rows: [data.rows[0], data.rows[0]] },
      {
        ...data,
        rows: Array.from({ length: 10_001 }, (_, i) => ({
          number: i + 1,
          cells: [],
          rejected: null,
        })),
      },
    ])
      expect(() => checkEditData(bad)).toThrow(/cannot be read/);
  });
});

describe('rows that were refused when the file was read', () => {
  const csv = [
    'Date;UTC;Body;Limb;Hs;By;Eye (m)',
    '13/05/2027;09:42:17;Sun;L;39 13,7;A;2,6',
    '13/05/2027;09:43:17;Sun;L;39 66,4;A;2,6',
    '13/05/2027;09:44:17;Snu;L;39 30,2;B;2,6',
    '13/05/2027;too;few',
  ].join('\n');
  const read = () => SightLog.fromCsv(csv, { columns: { By: 'observer' } });
  const sheetOf = (log: SightLog) =>
    new Sheet(checkEditData(JSON.parse(JSON.stringify(editData(log, names)))));

  it('come under the readings with what is wrong marked, are mended there, and are written as code', () => {
    const log = read();
    const sheet = sheetOf(log);
    expect(sheet.refused().map((r) => r.line)).toEqual([3, 4]);
    sheet.takeRefused();
    expect(sheet.refused()).toEqual([]);
    const [first, second] = sheet.rows().slice(1) as [SheetRow, SheetRow];
    expect(first.texts).toMatchObject({ utc: '2027-05-13 09:43:17', eyeHeight: '2,6 m' });
    expect(first.findings.map((f) => f.name)).toEqual(['reading']);
    expect(second.findings.map((f) => f.name)).toEqual(['body']);
    sheet.enter([[first.id, { reading: '39 16,4' }]]);
    sheet.settle('');
    expect(sheet.code()).toContain('// not taken: new');
    expect(sheet.refused()).toEqual([]);
    sheet.enter([[second.id, { body: 'Sun' }]]);
    sheet.settle('');
    const amended = run(sheet.code(), log);
    expect(amended.readings().map((r) => [r.readingText, r.observer])).toEqual([
      ['39 13,7', 'A'],
      ['39 16,4', 'A'],
      ['39 30,2', 'B'],
    ]);
    const again = sheetOf(log);
    again.restore(sheet.kept());
    expect(again.refused()).toEqual([]);
    for (let i = 0; i < 5; i++) again.undo();
    expect(again.refused()).toHaveLength(2);
  });

  it('a time typed over a refused one keeps its own date, whatever the reading before it has', () => {
    const log = SightLog.fromCsv(
      'UTC,body,limb,reading\n2027-05-11 09:42:17,Sun,lower,41°18.6′\n2027-05-12 09:40,Sun,lower,41°20.6′',
    );
    const sheet = sheetOf(log);
    sheet.takeRefused();
    sheet.enter([[(sheet.rows()[1] as SheetRow).id, { utc: '09:40:31' }]]);
    sheet.settle('');
    expect(sheet.code()).toContain("utc: '2027-05-12 09:40:31'");
  });

  it('go out again with one undo', () => {
    const sheet = sheetOf(read());
    sheet.takeRefused();
    sheet.undo();
    expect(sheet.rows()).toHaveLength(2);
    expect(sheet.refused()).toHaveLength(2);
  });
});
