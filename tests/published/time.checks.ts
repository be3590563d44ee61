import { Instant, taiMinusUtc } from 'cocked-hat';
import meeus from './fixtures/meeus.json';
import reference from './fixtures/time.json';
import { pythonScript } from '../support/python.js';
import type { Check } from './compare.js';

const NTP_EPOCH_MJD = 15020;
const DAY_S = 86400;

/** Leap seconds and DUT1 against IERS publications. */
export function timeChecks(): Check[] {
  const leaps = reference.leap_seconds.rows as [number, number, string][];
  const dut1 = reference.dut1.rows;
  return [
    {
      group: 'Time',
      subject: 'TAI − UTC',
      quantity: 'leap seconds',
      unit: 's',
      tolerance: 0,
      reason: 'whole seconds, by decision of the IERS',
      source: 'IERS Bulletin C, leap-seconds.list',
      expected: leaps.length * 2 - 1,
      *cases() {
        for (const [i, [ntp, tai, date]] of leaps.entries()) {
          const mjd = NTP_EPOCH_MJD + ntp / DAY_S;
          yield { label: date, ours: taiMinusUtc(mjd), theirs: tai };
          const before = leaps[i - 1];
          if (before)
            yield {
              label: `the day before ${date}`,
              ours: taiMinusUtc(mjd - 1),
              theirs: before[1],
            };
        }
      },
    },
    {
      group: 'Time',
      subject: 'UT1 − UTC',
      quantity: 'DUT1',
      unit: 's',
      tolerance: 0.005,
      reason:
        'our table has a knot every 10 days, worst interpolation error 0.003 s; 0.005 s is 0.001′ of GHA',
      source: 'IERS finals2000A.all, Bulletin B column',
      expected: dut1.length,
      *cases() {
        for (const row of dut1) {
          const instant = Instant.fromEpochMs((row.mjd - 40587) * DAY_S * 1000);
          yield { label: `MJD ${row.mjd}`, ours: instant.dut1Seconds, theirs: row.ut1_utc_B_s };
        }
      },
    },
    ...liveChecks(),
    ...meeusChecks(),
  ];
}

interface ErfaTimes {
  readonly versions: string;
  readonly rows: { utc: string; tt: [number, number]; ut1: [number, number] }[];
}

/** UTC to TT and UT1 by ERFA, at random times and across every leap second, with UT1 from IERS data as packaged for astropy. */
function liveChecks(): Check[] {
  const answer = pythonScript<ErfaTimes>('tests/published/python/erfa_times.py', {});
  const one = (scale: 'tt' | 'ut1', tolerance: number, reason: string): Check => ({
    group: 'Time',
    subject: scale.toUpperCase(),
    quantity: 'from UTC, 1972–2026, leap seconds among them',
    unit: 's',
    tolerance,
    reason,
    source: `${answer.versions}, run live`,
    expected: answer.rows.length,
    *cases() {
      for (const row of answer.rows) {
        const ours = Instant.utc(row.utc)[scale];
        const [day, fraction] = row[scale];
        yield { label: row.utc, ours: (ours - day - fraction) * DAY_S, theirs: 0 };
      }
    },
  });
  return [
    one('tt', 0.0001, 'a Julian date in one number holds 0.00004 s'),
    one('ut1', 0.004, 'our table has a knot every 10 days: worst interpolation error 0.003 s'),
  ];
}

function meeusChecks(): Check[] {
  const fixture = (id: string) => {
    const entry = meeus.entries.find((e) => e.id === id);
    if (!entry) throw new Error(`no fixture ${id}`);
    return entry;
  };
  const table = fixture('meeus-7table');
  const dates = (table.inputs as { gregorian: string[] }).gregorian;
  const days = (table.expected as { jd: number[] }).jd;
  const deltaT = fixture('meeus-10A');
  const years = (deltaT.inputs as { year_jan0: number[] }).year_jan0;
  const values = (deltaT.expected as { delta_t_s: number[] }).delta_t_s;
  return [
    {
      group: 'Time',
      subject: 'Julian date',
      quantity: 'of a civil date',
      unit: 'd',
      tolerance: 1e-6,
      reason: 'exact in the table; ours is compared in milliseconds since 1970',
      source: table.source,
      expected: dates.length,
      *cases() {
        for (const [i, date] of dates.entries()) {
          const [day, part] = [date.slice(0, 10), date.endsWith('.5') ? '12:00:00' : '00:00:00'];
          const ours = Instant.utc(`${day} ${part}`).epochMs / 86400000 + 2440587.5;
          yield { label: date, ours, theirs: days[i] ?? NaN };
        }
      },
    },
    {
      group: 'Time',
      subject: 'ΔT',
      quantity: '1898–1996',
      unit: 's',
      tolerance: 1,
      reason:
        'the book’s table is of 1998; later work moved values before 1955 by up to 1 s (and by 5 s in 1800, left out here)',
      source: deltaT.source,
      expected: years.filter((year) => year >= 1898).length,
      *cases() {
        for (const [i, year] of years.entries())
          if (year >= 1898)
            yield {
              label: String(year),
              ours: Instant.utcParts(year, 1, 1).deltaTSeconds,
              theirs: values[i] ?? NaN,
            };
      },
    },
  ];
}
