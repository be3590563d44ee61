import { describe, expect, test } from 'vitest';
import {
  EntryError,
  formatIndexError,
  indexError,
  indexErrorFromHorizon,
  indexErrorFromSun,
  Instant,
  observedAltitude,
} from 'cocked-hat';
import { sun } from './examples.js';

describe('index error as text', () => {
  test.each([
    ['1.4′ off the arc', -1.4],
    ["0.8' on the arc", 0.8],
    ['0.8 on', 0.8],
    ['1.4 OFF', -1.4],
    ['1°0′ on the arc', 60],
    ['off 1.4', -1.4],
    ['on the arc 0.8′', 0.8],
    ['Off the arc: 1.4′', -1.4],
    ['none', 0],
    ['nil', 0],
    ['0.0′', 0],
  ])('%s', (text, arcmin) => expect(indexError(text).arcminutes).toBeCloseTo(arcmin, 10));
  test('prints as it is said', () => {
    expect(formatIndexError(indexError('1.4′ off the arc'))).toBe('1.4′ off the arc');
    expect(formatIndexError(indexError('none'))).toBe('none');
  });
});

describe('index check on the horizon', () => {
  test('averages several contacts and is surer for it', () => {
    const w = indexErrorFromHorizon([
      '1.2′ off the arc',
      '1.6′ off the arc',
      '1.4′ off the arc',
      '1.4 off',
    ]);
    expect(w.value.arcminutes).toBeCloseTo(-1.4, 10);
    expect(w.uncertainty.sigma.arcminutes).toBeCloseTo(0.1, 10);
  });
  test('goes into a sight with its own uncertainty', () => {
    const s = sun({
      indexError: indexErrorFromHorizon(['1.4 off', '1.4 off', '1.4 off', '1.4 off']),
    });
    const w = observedAltitude(s);
    expect(w.step('index').correction?.arcminutes).toBeCloseTo(1.4, 10);
    expect(w.uncertainty.causes.find((c) => c.cause === 'index')?.sigmaArcmin).toBeCloseTo(0.1, 10);
  });
  test('refuses another working in its place', () => {
    expect(() => sun({ indexError: observedAltitude(sun()) })).toThrow(/not an index check/);
  });
});

describe('index check on the Sun', () => {
  const time = Instant.utc('2027-05-11 09:30:00 UTC');
  test('half the difference is the error, a quarter of the sum the semi-diameter', () => {
    const w = indexErrorFromSun({ on: '30.2′', off: '33.0′', time });
    expect(w.value.arcminutes).toBeCloseTo(-1.4, 10);
    expect(w.step('semidiameter-check').figures).toBe('(30.2′ + 33.0′)/4 = 15.8′; almanac 15.8′');
    expect(w.flags).toEqual([]);
  });
  test('minutes need no mark, and the time may be written as in a sight', () => {
    const time = '2027-05-11 09:30:00 UTC';
    const marked = indexErrorFromSun({ on: '30.2′', off: '33.0′', time: Instant.utc(time) });
    expect(indexErrorFromSun({ on: '30.2', off: ' 33.0', time }).toString()).toBe(
      marked.toString(),
    );
    expect(() => indexErrorFromSun({ on: '130', off: '33' })).toThrow('between 0′ and 1°40′');
  });
  test('readings that do not make the almanac’s semi-diameter are flagged and widen the error', () => {
    const w = indexErrorFromSun({ on: '30.2′', off: '35.0′', semidiameter: '15.8′' });
    expect(w.flags[0]).toMatch(/take them again/);
    expect(w.uncertainty.sigma.arcminutes).toBeGreaterThan(0.4);
  });
  test('the drum’s own figure off the arc is recognised', () => {
    const w = indexErrorFromSun({ on: '30.2′', off: '27.0′', time });
    expect(w.flags[0]).toMatch(/drum shows 60′ less/);
  });
  test('a flag goes on into the sight', () => {
    const bad = indexErrorFromSun({ on: '30.2′', off: '35.0′', time });
    expect(observedAltitude(sun({ indexError: bad })).flags).toEqual(bad.flags);
  });
  test.each([['−3′'], ['2°'], ['abc']])('refuses %s', (on) =>
    expect(() => indexErrorFromSun({ on, off: '33.0′', time })).toThrow(EntryError),
  );
});
