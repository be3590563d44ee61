import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SightLog } from '../../../src/index.js';
import { starNames } from '../../../src/core/sky/body-names.js';
import { deckCsv } from '../../../src/publish/deck/deck-csv.js';
import type { ClockCheck } from '../../../src/publish/deck/clock-checks.js';
import { markFault, type DeckMark } from '../../../src/publish/deck/mark.js';

const AT = Date.UTC(2027, 4, 11, 9, 42, 18, 600);
const mark = (changes: Partial<DeckMark> = {}): DeckMark => ({
  id: 'a',
  deviceMs: AT,
  body: 'Sun',
  limb: 'lower',
  reading: '41°18.6',
  isOffArc: false,
  conditions: {},
  remarks: '',
  isStruck: false,
  ...changes,
});
const check = (deviceMs: number, fastS: number): ClockCheck => ({
  id: `c${deviceMs}`,
  deviceMs,
  signalMs: deviceMs - fastS * 1000,
  signal: 'radio time signal',
});

const rowOf = (log: SightLog) => log.rows()[0] as unknown as Record<string, unknown>;

describe('the file of a deck sheet', () => {
  it('comes through the sight log with time corrected, the clock’s own reading and its error beside it', () => {
    const log = SightLog.fromCsv(deckCsv([mark()], [check(AT - 3_600_000, 1.3)]));
    expect(log.report.refused).toEqual([]);
    expect(log.report.queries).toEqual([]);
    const row = rowOf(log);
    expect(row['utcMs']).toBe(AT - 1300);
    expect(row['watchMs']).toBe(AT);
    expect(row['watchErrorS']).toBeCloseTo(1.3, 9);
    expect(row['readingDeg']).toBeCloseTo(41 + 18.6 / 60, 9);
    expect(row['limb']).toBe('lower');
    expect(row['remarks']).toBe(
      'device clock checked: 1.3 s fast at 2027-05-11 08:42:17.3 UTC by radio time signal',
    );
  });

  it('says so where the clock was never checked', () => {
    const log = SightLog.fromCsv(deckCsv([mark()], []));
    const row = rowOf(log);
    expect(row['utcMs']).toBe(AT);
    expect(row['remarks']).toBe('device clock, not checked against a time signal');
  });

  it('takes every body, limb, condition and remark without a refused row, and counts what it leaves to comments', () => {
    const text = fc.oneof(
      fc.string({ maxLength: 30 }),
      fc.constantFrom(
        '',
        '2.6 m',
        '=1+1',
        '"',
        ',',
        '\n',
        '# x',
        '19°31.0′ S',
        '001°12.0′ W',
        '0.8',
      ),
    );
    const conditions = fc.record({
      observer: text,
      round: text,
      instrument: text,
      indexErrorArcmin: text,
      horizon: fc.constantFrom('', 'natural', 'artificial', 'short', 'nonsense'),
      eyeHeightM: text,
      temperatureC: text,
      pressureHpa: text,
      positionKind: fc.constantFrom('', 'DR', 'known'),
      latDeg: text,
      lonDeg: text,
    });
    const target = fc.oneof(
      fc.constantFrom<Pick<DeckMark, 'body' | 'limb'>>(
        { body: 'Sun', limb: 'lower' },
        { body: 'Moon', limb: 'upper' },
        { body: '', limb: '' },
      ),
      fc.constantFrom('Venus', ...starNames).map((body) => ({ body, limb: '' as const })),
    );
    let rows = 0;
    let comments = 0;
    fc.assert(
      fc.property(
        fc.array(
          fc
            .record({
              target,
              conditions,
              deviceMs: fc.integer({ min: AT, max: AT + 1e9 }),
              reading: fc.constantFrom(
                '',
                '4',
                '41°',
                '41°18.6',
                '0°5',
                '141°03',
                '41°99',
                '4.1.1°',
                '°',
              ),
              isOffArc: fc.boolean(),
              remarks: text,
              isStruck: fc.boolean(),
            })
            .map(({ target: t, ...m }) => mark({ ...m, ...t })),
          { maxLength: 8 },
        ),
        fc.array(
          fc.tuple(
            fc.integer({ min: AT, max: AT + 1e9 }),
            fc.double({ min: -4000, max: 4000, noNaN: true }),
          ),
          {
            maxLength: 3,
          },
        ),
        (marks, checked) => {
          const csv = deckCsv(
            marks,
            checked.map(([at, s]) => check(at, s)),
          );
          const log = SightLog.fromCsv(csv);
          expect(log.report.refused).toEqual([]);
          const whole = marks.filter((m) => markFault(m) === null).length;
          expect(log.numRows()).toBe(whole);
          expect(csv.match(/^# mark \d+, not complete/gm)?.length ?? 0).toBe(marks.length - whole);
          rows += whole;
          comments += marks.length - whole;
        },
      ),
      { numRuns: 150 },
    );
    expect(rows).toBeGreaterThan(40);
    expect(comments).toBeGreaterThan(40);
  });

  it('keeps in the remarks what a cell cannot take', () => {
    const csv = deckCsv(
      [mark({ conditions: { eyeHeightM: 'about two', latDeg: '19°31.0′ S' }, remarks: 'hazy' })],
      [],
    );
    const row = rowOf(SightLog.fromCsv(csv));
    expect(row['remarks']).toContain('hazy; ');
    expect(row['remarks']).toContain('height of eye as typed: about two');
    expect(row['remarks']).toContain('latitude as typed: 19°31.0′ S');
  });

  it('leaves a struck out mark in the log, not accepted, with a reason', () => {
    const log = SightLog.fromCsv(deckCsv([mark({ isStruck: true })], []));
    const row = rowOf(log);
    expect([row['accepted'], row['reason']]).toEqual([false, 'struck out on deck']);
  });
});
