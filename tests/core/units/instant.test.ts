import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Duration, EntryError, Instant, OutOfRangeError } from 'cocked-hat';

const seconds = (n: number) => Duration.seconds(n);

describe('a UTC time', () => {
  test.each([
    ['2027-05-11 09:42:17 UTC', '2027-05-11 09:42:17 UTC'],
    ['2027-05-11T09:42:17Z', '2027-05-11 09:42:17 UTC'],
    ['2027-05-11 09:42:17', '2027-05-11 09:42:17 UTC'],
    ['2027-05-11 09:42', '2027-05-11 09:42:00 UTC'],
    ['2027-5-1, 09:42:17', '2027-05-01 09:42:17 UTC'],
    ['2027-05-11 09:42:17.25 UT', '2027-05-11 09:42:17.25 UTC'],
    ['2016-12-31 23:59:60', '2016-12-31 23:59:60 UTC'],
    ['2016-12-31 23:59:60.5', '2016-12-31 23:59:60.5 UTC'],
    ['2028-02-29 00:00:00', '2028-02-29 00:00:00 UTC'],
  ])('%s is read and printed as %s, its text kept', (text, printed) => {
    expect(String(Instant.utc(text))).toBe(printed);
    expect(Instant.utc(text).text).toBe(text);
  });

  test.each([
    ['2027-02-30 10:00:00', /no 2027-02-30/],
    ['2027-02-29 10:00:00', /28 days/],
    ['1900-02-29 10:00:00', /28 days/],
    ['2027-13-01 10:00:00', /no month 13/],
    ['2027-05-11 24:00:00', /00 to 23/],
    ['2027-05-11 09:60:00', /00 to 59/],
    ['2027-05-11 09:42:60', /no second 60/],
    ['2027-06-30 23:59:60', /no second 60/],
    ['2016-12-31 22:59:60', /no second 60/],
    ['2027-05-11 09:42:61', /00 to 59/],
    ['2027-05-11', /time of day is missing/],
    ['11/05/2027 09:42', /begin with the year/],
    ['2027/05/11 09:42', /hyphens/],
    ['2027-05-11 09:42 +02:00', /zone offset/],
    ['2027-05-11T09:42:17+02:00', /zone offset/],
    ['2027-05-11 09:42 pm', /24-hour/],
    ['2027-05-11 09:42 BST', /Only UTC/],
    ['1599-12-31 23:59:59', /1600 to 2200/],
    ['2201-01-01 00:00:00', /1600 to 2200/],
    ['2027-05-11 09:42:17 +2', /zone offset/],
    ['2027-13-1 10:00:00', /no month 13/],
    ['2027-05-11 09.42.17', /colons between/],
    ['2027-05-11 9h42m17s', /colons between/],
    ['2027-05-11 094217', /colons between/],
    ['9:42', /date is missing/],
    ['tomorrow', /not a date and time/],
    ['', /No time/],
  ])('%s is refused with the right form', (text, message) => {
    expect(() => Instant.utc(text)).toThrow(message);
    expect(() => Instant.utc(text)).toThrow('Write 2027-05-11 09:42:17 UTC');
    expect(() => Instant.utc(text)).toThrow(EntryError);
  });

  test('from parts is checked as from text', () => {
    expect(Instant.utc('13 May 2027 18:14:48 UTC').toIso()).toBe('2027-05-13T18:14:48Z');
    expect(Instant.utc('3 Sept. 2027, 06:05').toIso()).toBe('2027-09-03T06:05:00Z');
    expect(() => Instant.utc('31 June 2027 06:05')).toThrow('that month has 30 days');
    expect(Instant.utcParts(2027, 5, 11, 9, 42, 17).toIso()).toBe('2027-05-11T09:42:17Z');
    expect(() => Instant.utcParts(2027, 2, 30)).toThrow(EntryError);
    expect(() => Instant.utcParts(2027, 2.5, 3)).toThrow(EntryError);
    expect(() => Instant.utcParts(NaN, 1, 1)).toThrow(EntryError);
    expect(() => Instant.utcParts(2027, 1, 1, 0, 0, NaN)).toThrow(EntryError);
  });
});

describe('leap seconds', () => {
  const before = Instant.utc('2016-12-31 23:59:59');
  test('are counted when time is added', () => {
    expect(before.plus(seconds(1)).toIso()).toBe('2016-12-31T23:59:60Z');
    expect(before.plus(seconds(2)).toIso()).toBe('2017-01-01T00:00:00Z');
    expect(Instant.utc('2017-01-01 00:00:00').plus(seconds(-1)).toIso()).toBe(
      '2016-12-31T23:59:60Z',
    );
    expect(Instant.utc('2017-01-01 00:00:00').minus(before).seconds).toBe(2);
  });
  test('do not disturb TT, which runs on evenly', () => {
    const at = (t: string) => Instant.utc(t).tt * 86400;
    expect(at('2016-12-31 23:59:60') - at('2016-12-31 23:59:59')).toBeCloseTo(1, 3);
    expect(at('2017-01-01 00:00:00') - at('2016-12-31 23:59:60')).toBeCloseTo(1, 3);
  });
  test('leave UT1 without a jump, while DUT1 gains a second', () => {
    const [a, b] = [Instant.utc('2016-12-31 23:59:59'), Instant.utc('2017-01-01 00:00:00')];
    expect((b.ut1 - a.ut1) * 86400).toBeCloseTo(2, 3);
    expect(b.dut1Seconds - a.dut1Seconds).toBeCloseTo(1, 3);
  });
});

describe('what is known of the Earth’s rotation', () => {
  test('is observed in the past, predicted ahead, and says so', () => {
    expect(Instant.utc('2020-01-01 00:00:00').predicted).toBe(false);
    const soon = Instant.utc('2027-05-11 00:00:00');
    expect(soon.predicted).toBe(true);
    expect(soon.earthRotationNote).toMatch(/predicted by the IERS/);
    const far = Instant.utc('2045-01-01 00:00:00');
    expect(far.predicted).toBe(true);
    expect(far.earthRotationNote).toMatch(/leap seconds not yet announced are not applied/);
    expect(Instant.utc('1912-01-01 00:00:00').earthRotationNote).toMatch(/taken as UT1/);
  });
  test('before 1972 is UT1 itself', () => {
    expect(Instant.utc('1957-10-04 19:28:34').dut1Seconds).toBeCloseTo(0, 3);
  });
  test('grows by less than 0.16 s a month over all joins of its tables, 1960 to 2060', () => {
    let previous: number | undefined;
    for (let year = 1960; year < 2060; year++)
      for (let month = 1; month <= 12; month++) {
        const deltaT = Instant.utcParts(year, month, 1).deltaTSeconds;
        if (previous !== undefined) expect(Math.abs(deltaT - previous)).toBeLessThan(0.16);
        previous = deltaT;
      }
  });
});

describe('Julian dates', () => {
  test('are taken as given', () => {
    const instant = Instant.fromJulianDates({
      tt: 2466093.420284,
      ut1: 2466093.420284 - 69.702 / 86400,
    });
    expect(instant.tt).toBe(2466093.420284);
    expect(instant.deltaTSeconds).toBeCloseTo(69.702, 3);
  });
  test('without UT1 use the tables', () => {
    const utc = Instant.utc('2019-03-04 05:06:07');
    const same = Instant.fromJulianDates({ tt: utc.tt });
    expect(same.ut1).toBeCloseTo(utc.ut1, 8);
    expect(Math.abs(same.epochMs - utc.epochMs)).toBeLessThan(1);
  });
  test('that cannot be are refused', () => {
    expect(() => Instant.fromJulianDates({ tt: NaN })).toThrow(OutOfRangeError);
    expect(() => Instant.fromJulianDates({ tt: Infinity, ut1: 1 })).toThrow(OutOfRangeError);
    expect(() => Instant.fromJulianDates({ tt: 2451545, ut1: 2451546 })).toThrow(/another day/);
    expect(() => Instant.fromJulianDates({ tt: 0 })).toThrow(/1600 to 2200/);
    expect(() => Instant.fromJulianDates({ tt: 1e9 })).toThrow(OutOfRangeError);
  });
});

describe('whatever comes in', () => {
  const ms = fc.integer({ min: Date.UTC(1600, 0, 2), max: Date.UTC(2200, 11, 30) });
  test('a printed time comes back as the same instant', () => {
    fc.assert(
      fc.property(ms, (value) => {
        const instant = Instant.fromEpochMs(value);
        const back = Instant.utc(instant.toString());
        expect(back.epochMs).toBe(instant.epochMs);
        expect(Instant.utc(instant.toIso()).epochMs).toBe(instant.epochMs);
      }),
    );
  });
  test('adding a span and taking it away again comes back, and differences agree', () => {
    fc.assert(
      fc.property(ms, fc.integer({ min: -4e6, max: 4e6 }), (value, span) => {
        const start = Instant.fromEpochMs(
          Math.min(Math.max(value, Date.UTC(1601, 0, 1)), Date.UTC(2199, 0, 1)),
        );
        const end = start.plus(seconds(span));
        expect(end.minus(start).seconds).toBeCloseTo(span, 3);
        expect(Math.abs(end.plus(seconds(-span)).epochMs - start.epochMs)).toBeLessThan(0.2);
      }),
    );
  });
  test('any text gives an instant or an EntryError', () => {
    const near = fc.string({ unit: fc.constantFrom(...'0123456789-: TZUC.+/'), maxLength: 26 });
    fc.assert(
      fc.property(fc.oneof(fc.string(), near), (text) => {
        try {
          expect(Number.isFinite(Instant.utc(text).tt)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(EntryError);
          expect((error as EntryError).text).toBe(text);
        }
      }),
      { numRuns: 2000 },
    );
  });
  test('any number of milliseconds gives an instant or an OutOfRangeError', () => {
    fc.assert(
      fc.property(fc.double(), (value) => {
        try {
          const instant = Instant.fromEpochMs(value);
          expect(Number.isFinite(instant.tt) && Number.isFinite(instant.ut1)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(OutOfRangeError);
        }
      }),
    );
  });
});
