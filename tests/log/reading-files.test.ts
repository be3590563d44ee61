import { describe, expect, it } from 'vitest';
import { SightLog, Track } from '../../src/index.js';
import { logTable } from '../../src/log/display/log-table.js';

const row = (time: string, rest = 'Sun,lower,41°18.6′') => `2027-05-11 ${time},${rest}`;
const file = (...rows: string[]) => ['UTC,body,limb,reading', ...rows].join('\n');

describe('files as people have them', () => {
  it('passes over rows that a spreadsheet wrote without entries', () => {
    const log = SightLog.fromCsv(
      'UTC;body;limb;reading\r\n;;;\r\n2027-05-11 09:42:17;Sun;lower;41°18,6′\r\n;;;\r\n',
    );
    expect(log.report.summary).toBe('1 row: 1 taken, 0 refused.');
  });
  it('a name in place of the text is met with the form that reads the file', () => {
    const form = (call: string, name: string) => `${call}(await readText('${name}'))`;
    const refusal = (read: () => unknown, text: string) => expect(read).toThrow(text);
    refusal(() => SightLog.fromCsv('my log.csv'), form('SightLog.fromCsv', 'my log.csv'));
    refusal(() => SightLog.fromJson('log.json'), form('SightLog.fromJson', 'log.json'));
    refusal(() => Track.fromGpx('track.GPX'), form('Track.fromGpx', 'track.GPX'));
    expect(() => SightLog.fromCsv('UTC,body')).toThrow(/needs reading/);
    expect(() => SightLog.fromCsv('date;time;body;reading')).toThrow(
      /needs UTC.* 'time' does not say by what: head it UTC, or watch time/,
    );
  });

  it('a sep= line decides, a head with empty cells at its end is taken, comments between rows are kept', () => {
    const log = SightLog.fromCsv(
      'sep=;\nUTC;body;limb;reading;;\n2027-05-11 09:42:17;Sun;lower;41°18,6′;;\n# the swell got up\n2027-05-11 09:43:17;Sun;lower;41°28,6′;;\n',
    );
    expect(log.report.refused).toEqual([]);
    expect(log.numRows()).toBe(2);
    expect(log.preamble).toEqual(['# the swell got up']);
    expect(log.report.notes).toContain('A comma was read as the decimal point in 2 cells.');
  });

  it('many rows refused for one reason are told together, the advice first, and all are kept', () => {
    const rows = Array.from({ length: 9 }, (_, i) => `04/05/2027 09:4${i}:17,Sun,lower,41°18.6′`);
    const { report } = SightLog.fromCsv(file(...rows, row('09:52:17', 'Snu,lower,41°18.6′')));
    expect(report.refused).toHaveLength(10);
    const lines = report.toText().split('\n');
    expect(lines[1]).toMatch(/^note .*dates: 'day first'/);
    expect(lines.filter((line) => line.includes('The order of day and month'))).toHaveLength(3);
    expect(lines).toContain('refused  6 more for the same reason, kept too: lines 5–10');
    expect(lines.filter((line) => line.includes("'Snu'") || line.includes('Snu'))).not.toEqual([]);
  });

  it('a quoted remark may run over lines, and lines are still counted as an editor counts them', () => {
    const log = SightLog.fromCsv(
      'UTC,body,limb,reading,remarks\n2027-05-11 09:42:17,Sun,lower,41°18.6′,"haze\nand swell"\n2027-05-11 09:43:17,Snu,lower,41°28.6′,\n',
    );
    expect(log.readings()[0]?.remarks).toBe('haze\nand swell');
    expect(log.report.refused[0]?.line).toBe(4);
  });

  it('a column that nearly is one of ours is kept and pointed at', () => {
    const log = SightLog.fromCsv(
      'UTC,body,limb,reading,presure\n2027-05-11 09:42:17,Sun,lower,41°18.6′,1016\n',
    );
    expect(log.report.notes[0]).toMatch(/'presure' .* did you mean 'pressure'\?/);
    expect(log.get('presure', 0)).toBe('1016');
    expect(log.get('pressureHpa', 0)).toBeNull();
  });

  it('heads of the user’s own are taken for what they are told to be, with their unit; others are named in one note', () => {
    const text =
      'UTC;body;limb;reading;By;Ht;Cloud;Swell\n2027-05-11 09:42:17;Sun;L;41°18,6′;A;9;3;long\n';
    const untold = SightLog.fromCsv(text).report.notes;
    expect(untold.filter((note) => /Columns .*: By, Ht, Cloud, Swell\./.test(note))).toHaveLength(
      1,
    );
    expect(untold.join()).toContain("{ columns: { 'By': 'observer' } }");
    expect(untold.join()).not.toContain('without a unit');
    const eye = SightLog.fromCsv(text.replace('Ht', 'Eye')).report.notes.join();
    expect(eye).toContain("{ columns: { 'Eye': 'height of eye (m)' } }");
    const columns = { by: 'observer', 'Ht.': 'height of eye (ft)' };
    const [read] = SightLog.fromCsv(text, { columns }).readings();
    expect(read).toMatchObject({ observer: 'A', eyeHeightText: '9 ft', cloud: '3' });
    expect(read?.eyeHeightM).toBeCloseTo(2.7432, 6);
    const signs = SightLog.fromCsv(text.replace('By', '#'), { columns: { '#': 'observer' } });
    expect(signs.get('observer', 0)).toBe('A');
    const refusal = (told: Record<string, string>) => () =>
      SightLog.fromCsv(text, { columns: told });
    expect(refusal({ Who: 'observer' })).toThrow(/No column .* 'Who'. Its heads are UTC, body/);
    expect(refusal({ By: 'obsrever' })).toThrow(/no column 'obsrever'; did you mean 'observer'\?/);
  });

  it('its report shows in a notebook what is amiss as a table: one row for all alike, with their lines', () => {
    const rows = Array.from({ length: 9 }, (_, i) => row(`09:4${i}:17`, 'Snu,lower,41°18.6′'));
    const { report } = SightLog.fromCsv(file(...rows, row('09:52:17', 'Sun,lower,41°78.6′<')));
    const shown = (report as unknown as Record<symbol, () => Record<string, string>>)[
      Symbol.for('Jupyter.display')
    ]?.();
    const html = shown?.['text/html'] ?? '';
    expect(html.match(/<tr>/g)).toHaveLength(3);
    expect(html).toContain('2–10 (9 rows)');
    expect(html).toContain('41°78.6′&lt;');
    expect(shown?.['text/plain']).toBe(report.toText());
  });

  it('a row written twice is in the log twice and reported', () => {
    const log = SightLog.fromCsv(file(row('09:42:17'), row('09:42:17')));
    expect(log.numRows()).toBe(2);
    expect(log.report.queries[0]).toMatchObject({ line: 3, column: null });
    expect(log.report.queries[0]?.reason).toMatch(/repeats line 2/);
  });

  it('a head without rows is an empty log', () => {
    const log = SightLog.fromCsv('UTC,body,limb,reading\n');
    expect(log.numRows()).toBe(0);
    expect(log.rounds()).toEqual([]);
    expect(log.sights()).toEqual([]);
    expect(log.toText()).toMatch(/^UTC|^\s*$|^round/);
    expect(SightLog.fromCsv(log.toCsv()).numRows()).toBe(0);
  });
});

describe('rounds and sights without a name', () => {
  const log = SightLog.fromCsv(
    file(
      row('08:00:00'),
      row('08:00:50'),
      row('08:01:40'),
      row('08:02:30'),
      row('08:05:00'),
      row('12:10:00'),
      row('18:40:00', 'Canopus,,40°00.0′'),
      row('18:41:00', 'Sirius,,40°00.0′'),
    ),
  );

  it('a round ends at a gap of an hour and is named by the part of the day', () => {
    expect(log.roundNames()).toEqual(['2027-05-11 forenoon', '2027-05-11 noon', '2027-05-11 dusk']);
  });

  it('a sight is up to three readings close together, and the report says so', () => {
    expect(log.sights().map((s) => s.readings.length)).toEqual([3, 1, 1, 1, 1, 1]);
    expect(log.report.notes.join(' ')).toMatch(/3 rounds were named by rule.*6 sights were formed/);
  });

  it('names that the file gives are kept', () => {
    const named = SightLog.fromCsv(
      'round,sight,UTC,body,limb,reading\nfirst,x,2027-05-11 08:00:00,Sun,lower,41°18.6′\nfirst,x,2027-05-11 15:00:00,Sun,lower,41°18.6′\n,,2027-05-11 15:00:30,Sun,lower,41°18.6′\n',
    );
    expect(named.readings().map((r) => [r.round, r.sight])).toEqual([
      ['first', 'x'],
      ['first', 'x'],
      ['2027-05-11 afternoon', '1'],
    ]);
  });
});

describe('dates in other orders', () => {
  const text =
    'date,UTC,body,limb,reading,index error\n13/05/2027,18:14:48,Sun,lower,41 18.6,1.4 off\n05.06.2027,18:14:48,Sun,lower,41 18.6,none\n';
  const utc = (log: SightLog) => log.rows().map((row) => new Date(row.utcMs).toISOString());
  it('are refused when none shows the order, by the cell of the date, and the report says how to have them read', () => {
    const { report } = SightLog.fromCsv(text.replace('13/05', '12/05'));
    expect(report.refused).toHaveLength(2);
    expect(report.refused[0]?.findings[0]).toMatchObject({ head: 'date', text: '12/05/2027' });
    expect(report.toText()).toContain("{ dates: 'day first' }");
  });
  it('are read when one of them can be read in one order only, wherever it stands', () => {
    const [head, ...rows] = text.trim().split('\n') as [string, string, string];
    for (const lines of [rows, rows.toReversed()]) {
      const log = SightLog.fromCsv([head, ...lines].join('\n'));
      expect(utc(log).toSorted()).toEqual(['2027-05-13T18:14:48.000Z', '2027-06-05T18:14:48.000Z']);
      expect(log.report.notes.join()).toMatch(/read day first, as line [23] \(13\/05\/2027\)/);
    }
    const american = SightLog.fromCsv(text.replace('13/05', '05/13'));
    expect(utc(american)).toEqual(['2027-05-13T18:14:48.000Z', '2027-05-06T18:14:48.000Z']);
  });
  it('in both orders are refused, and the report names a line of each', () => {
    const { report } = SightLog.fromCsv(`${text}05/14/2027,18:14:48,Sun,lower,41 18.6,none\n`);
    expect(report.refused).toHaveLength(3);
    expect(report.notes.join()).toMatch(/both orders: line 2 .*day first, line 4 .*month first/);
  });
  it('are read in the order that is told; what cannot be so is refused', () => {
    expect(utc(SightLog.fromCsv(text, { dates: 'day first' }))).toEqual([
      '2027-05-13T18:14:48.000Z',
      '2027-06-05T18:14:48.000Z',
    ]);
    const american = SightLog.fromCsv(text, { dates: 'month first' });
    expect(utc(american)).toEqual(['2027-05-06T18:14:48.000Z']);
    expect(american.report.refused[0]?.findings[0]?.reason).toMatch(/no month 13/);
  });
  it('an index error with its side and no mark is minutes, as in a cell', () => {
    const log = SightLog.fromCsv(text, { dates: 'day first' });
    expect(log.rows()[0]?.indexErrorArcmin).toBe(-1.4);
  });
});

describe('a sight made from rows', () => {
  it('carries what was written, and what was not noted shows as an assumption', () => {
    const [sight] = SightLog.fromCsv(
      'UTC,body,limb,reading,index error,height of eye,observer,sextant\n2027-05-11 09:42:17,Sun,lower,41 18.6,1.4′ off the arc,9 ft,A,old brass\n',
    ).sights();
    expect(sight?.readings[0]?.angle.text).toBe('41 18.6');
    expect(sight?.eyeHeight?.text).toBe('9 ft');
    expect(sight?.indexError?.text).toBe('1.4′ off the arc');
    expect(sight?.instrument).toBe('old brass');
    expect(sight?.assumptions.join(' ')).toMatch(/10 °C/);
  });

  it('a table of readings not used has the reason beside the body', () => {
    const log = SightLog.fromCsv(file(row('09:42:17'), row('09:43:17')));
    const heads = (table: SightLog) => logTable(table).columns.map((c) => c.head);
    const [all, none] = [log.reject((r) => r.line === 2, 'haze'), log.reject(() => true, 'haze')];
    expect(heads(all)).toEqual(expect.arrayContaining(['used', 'reason']));
    expect(heads(none).slice(3, 5)).toEqual(['body', 'reason']);
    expect(heads(none)).not.toContain('used');
  });

  it('leaves out readings that are not used', () => {
    const log = SightLog.fromCsv(
      'sight,UTC,body,limb,reading,accepted,reason\n1,2027-05-11 09:42:17,Sun,lower,41°18.6′,,\n1,2027-05-11 09:43:17,Sun,lower,49°28.6′,no,misread\n',
    );
    expect(log.sights()[0]?.readings).toHaveLength(1);
    expect(log.rejected().readings()[0]?.reason).toBe('misread');
  });
});

describe('a log in plain text and HTML', () => {
  const log = SightLog.fromCsv(
    'UTC,body,limb,reading,height of eye,remarks\n2027-05-11 09:42:17,Sun,lower,41°18.6′,9 ft,<b>haze</b>\n2027-05-11 09:43:17,Sun,lower,41°28.6′,9 ft,\n',
  );
  it('has units in the head, figures to the right, and counts what it does not show', () => {
    const text = log.toText(1);
    expect(text).toContain('height of eye (m)');
    expect(text).toMatch(/41°18\.6′ +2\.7 +/);
    expect(text).toContain('… and 1 more');
  });
  it('escapes what a remark holds', () => {
    expect(log.toHtml()).toContain('&lt;b&gt;haze');
    expect(log.toHtml()).not.toContain('<b>');
  });
  it('names the columns there are when asked for one that is not', () => {
    expect(() => log.toText(1, { columns: ['hsDeg' as never] })).toThrow(/'readingDeg'/);
  });
});
