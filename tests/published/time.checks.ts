import { Instant, taiMinusUtc } from 'cocked-hat';
import reference from './fixtures/time.json';
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
  ];
}
