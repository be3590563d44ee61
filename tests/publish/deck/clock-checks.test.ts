import { describe, expect, it } from 'vitest';
import {
  checkedMoments,
  clockErrorAt,
  clockErrorText,
  nearestMinute,
  stamp,
  utcOf,
  type ClockCheck,
} from '../../../src/publish/deck/clock-checks.js';

const NOON = Date.UTC(2027, 4, 11, 12);
const HOUR = 3_600_000;
const check = (signalMs: number, fastS: number): ClockCheck => ({
  id: String(signalMs),
  deviceMs: signalMs + fastS * 1000,
  signalMs,
  signal: 'GNSS receiver',
});

describe('the clock of the device', () => {
  it('has no error that is known before a check', () => {
    expect(clockErrorAt([], NOON)).toBeNull();
    expect(utcOf([], NOON + 40)).toBe(NOON);
  });
  it('goes by the one check before it and after it', () => {
    const checks = [check(NOON, 2)];
    expect(clockErrorAt(checks, NOON + 9 * HOUR)?.fastS).toBe(2);
    expect(clockErrorAt(checks, NOON - HOUR)?.fastS).toBe(2);
    expect(utcOf(checks, NOON + HOUR)).toBe(NOON + HOUR - 2000);
  });
  it('goes in proportion between two checks, and carries no rate beyond them', () => {
    const checks = [check(NOON + 10 * HOUR, 4), check(NOON, 2)];
    expect(clockErrorAt(checks, NOON + 5 * HOUR + 3000)?.fastS).toBeCloseTo(3, 3);
    expect(clockErrorAt(checks, NOON + 20 * HOUR)?.fastS).toBe(4);
  });
  it('takes presses minute after minute as one check, with their mean and spread', () => {
    const checks = [check(NOON, 1.0), check(NOON + 60_000, 1.3), check(NOON + 120_000, 1.3)];
    const [moment, ...more] = checkedMoments(checks);
    expect(more).toEqual([]);
    expect(moment?.presses).toBe(3);
    expect(moment?.fastS).toBeCloseTo(1.2, 9);
    expect(moment?.spreadS).toBeCloseTo(0.3, 9);
  });
  it('says fast and slow, never a sign', () => {
    expect([1.34, -0.4, 0.04, -0.04].map(clockErrorText)).toEqual([
      '1.3 s fast',
      '0.4 s slow',
      '0.0 s',
      '0.0 s',
    ]);
  });
  it('writes tenths of a second, carrying into the next second and day', () => {
    expect(stamp(NOON + 17_340)).toBe('2027-05-11 12:00:17.3');
    expect(stamp(Date.UTC(2027, 11, 31, 23, 59, 59, 960))).toBe('2028-01-01 00:00:00.0');
  });
  it('takes the nearest minute for the one that the signal stood for', () => {
    expect(nearestMinute(NOON + 29_999)).toBe(NOON);
    expect(nearestMinute(NOON - 29_999)).toBe(NOON);
    expect(nearestMinute(NOON + 31_000)).toBe(NOON + 60_000);
  });
});
