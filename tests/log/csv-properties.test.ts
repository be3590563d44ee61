import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scanCsv } from '../../src/log/csv/scan-csv.js';
import { EntryError, simulatePracticeAfternoon, SightLog } from '../../src/index.js';

const sound = 'UTC,body,limb,reading,observer,remarks,own one\n';
/** Text that a cell may hold: no bytes of a broken encoding, no blanks at the ends, which no cell keeps. */
const BROKEN = /[\uFFFD\u0000-\u001f]|Â[°º]|â€/;
const cell = fc
  .oneof(
    fc.string({ unit: 'binary', maxLength: 30 }),
    fc.constantFrom('=1+1', "'=1", '@x', '-3', '+x', '"', ',', ';', '#', "''=", 'a\nb', '\u2212'),
  )
  .filter((t) => !BROKEN.test(t.replaceAll('\n', '')) && t !== '');
const quoted = (t: string) => `"${t.replaceAll('"', '""')}"`;

describe('CSV of any text', () => {
  it('comes out as it went in, by way of CSV and of JSON', () => {
    fc.assert(
      fc.property(cell, cell, cell, fc.constantFrom(',', ';', '\t'), (a, b, c, delimiter) => {
        const row = `2027-05-11 09:42:17,Sun,lower,41°18.6′,${[a, b, c].map(quoted).join(',')}\n`;
        const log = SightLog.fromCsv(sound + row);
        expect(log.report.refused).toEqual([]);
        const texts = (l: SightLog) => l.readings().map((r) => ({ ...r, line: null }));
        const again = SightLog.fromCsv(log.toCsv({ delimiter }));
        expect(texts(again)).toEqual(texts(log));
        expect(texts(SightLog.fromJson(log.toJson()))).toEqual(texts(log));
      }),
      { numRuns: 300 },
    );
  });

  it('no cell of what is written runs as a formula', () => {
    fc.assert(
      fc.property(cell, (a) => {
        const row = `2027-05-11 09:42:17,Sun,lower,41°18.6′,A,${quoted(a)},x\n`;
        const out = SightLog.fromCsv(sound + row).toCsv();
        const cells = [...scanCsv(out, ',')].flatMap((r) => r.cells);
        const plain = (x: string) => /^[-+]?\d+(?:[.,]\d+)?$/.test(x);
        expect(cells.filter((x) => /^[=+\-@\t\r]/.test(x) && !plain(x))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});

describe('a mutilated log', () => {
  const { csv } = simulatePracticeAfternoon(1);
  const lines = csv.split('\n');
  const headLength = lines.slice(0, 2).join('\n').length + 1;
  const body = csv.slice(headLength);
  const wound = fc.record({
    at: fc.integer({ min: 0, max: body.length - 1 }),
    cut: fc.integer({ min: 0, max: 40 }),
    put: fc.constantFrom('', '"', ',', '\n', '\r\n', ';', '\uFFFD', '""', '#', '9', '′', ' '),
  });

  it('is read or refused row by row: every line is accounted for, and nothing else is thrown', () => {
    fc.assert(
      fc.property(fc.array(wound, { minLength: 1, maxLength: 6 }), (wounds) => {
        let text = body;
        for (const { at, cut, put } of wounds)
          text = text.slice(0, at) + put + text.slice(at + cut);
        const whole = csv.slice(0, headLength) + text;
        const log = SightLog.fromCsv(whole);
        const { report } = log;
        expect(report.taken).toBe(log.numRows());
        for (const row of report.refused) {
          expect(whole).toContain(row.text);
          expect(row.findings.length).toBeGreaterThan(0);
          for (const f of row.findings) expect(f.reason.length).toBeGreaterThan(10);
        }
        // Each data line starts a record that was taken or refused, or lies in a refused or quoted one, or is a comment.
        const starts = new Set([
          ...log.readings().map((r) => r.line),
          ...report.refused.map((r) => r.line),
        ]);
        whole.split(/\r\n|\n|\r/).forEach((line, i) => {
          const number = i + 1;
          // A row without entries, separators alone, is blank.
          const isBlank = line.replace(/[\s,]|""/g, '') === '';
          if (number <= 2 || isBlank || line.startsWith('#')) return;
          if (starts.has(number)) return;
          const before = [...starts].filter((s) => (s ?? 0) < number);
          const start = Math.max(...before.map((s) => s ?? 0));
          const record = whole
            .split(/\r\n|\n|\r/)
            .slice(start - 1, number)
            .join('\n');
          expect((record.match(/"/g) ?? []).length).toBeGreaterThan(0);
        });
      }),
      { numRuns: 300 },
    );
  });

  it('garbage is no sight log, and says so', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        expect(() => SightLog.fromCsv(text)).toThrow(EntryError);
      }),
    );
  });
});
