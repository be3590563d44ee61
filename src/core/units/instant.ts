import { finite, OutOfRangeError } from './errors.js';
import { checkParts, mjdOf, readUtc, type UtcParts } from './instant-text.js';
import { Duration } from './scalar.js';
import {
  earthRotation,
  endsWithLeapSecond,
  EPOCH_MJD,
  FIRST_UTC_MJD,
  MJD_TO_JD,
  taiMinusUtc,
  timeTables,
  TT_MINUS_TAI_S,
} from './time-scales.js';

const DAY_S = 86400;
const MAX_DECIMALS = 9;

/**
 * A moment, immutable, known in UTC, UT1 and TT. Before 1972 the civil time is taken as UT1 (the old Greenwich
 * mean time counted from midnight). The calendar is Gregorian; years 1600 to 2200.
 */
export class Instant {
  private constructor(
    /** Whole modified Julian day and second of it (up to 61 on a leap-second day), UTC. */
    private readonly utcMjd: number,
    private readonly utcSecond: number,
    /** Terrestrial time, Julian date. */
    readonly tt: number,
    /** Universal time UT1, Julian date. */
    readonly ut1: number,
    /** Whether DUT1 and ΔT are predictions rather than observations. */
    readonly predicted: boolean,
    /** Where DUT1 or ΔT comes from. */
    readonly earthRotationNote: string,
    private readonly decimals: number,
    /** What the user wrote, when the instant came from text. */
    readonly text?: string,
  ) {
    Object.freeze(this);
  }

  /**
   * From a UTC date and time: `2027-05-11 09:42:17 UTC`, `2027-05-11T09:42:17.5Z`, `2016-12-31 23:59:60`.
   * @throws EntryError on an impossible date, a missing time, a zone offset, a year outside 1600–2200.
   */
  static utc(text: string): Instant {
    return Instant.ofParts(readUtc(text), text);
  }
  /** From numbers, checked like text. `month` 1–12. @throws EntryError */
  static utcParts(
    year: number,
    month: number,
    day: number,
    hour = 0,
    minute = 0,
    second = 0,
  ): Instant {
    const parts = { year, month, day, hour, minute, second, decimals: shownDecimals(second) };
    checkParts(parts, `${year}-${month}-${day} ${hour}:${minute}:${second}`);
    return Instant.ofParts(parts);
  }
  private static ofParts(p: UtcParts, text?: string): Instant {
    const second = p.hour * 3600 + p.minute * 60 + p.second;
    return Instant.ofUtc(mjdOf(p.year, p.month, p.day), second, p.decimals, text);
  }
  private static ofUtc(mjd: number, second: number, decimals: number, text?: string): Instant {
    const rotation = earthRotation(mjd + second / DAY_S);
    const taiSecond =
      mjd < FIRST_UTC_MJD ? second + rotation.taiMinusUt1S : second + taiMinusUtc(mjd);
    const tt = mjd + MJD_TO_JD + (taiSecond + TT_MINUS_TAI_S) / DAY_S;
    const ut1 = mjd + MJD_TO_JD + (taiSecond - rotation.taiMinusUt1S) / DAY_S;
    return new Instant(mjd, second, tt, ut1, rotation.predicted, rotation.note, decimals, text);
  }

  /**
   * From Julian dates, as reference tables give them. Without `ut1` the tables shipped here supply it.
   * @throws OutOfRangeError outside the years 1600–2200, or when TT − UT1 exceeds an hour.
   */
  static fromJulianDates({ tt, ut1 }: { tt: number; ut1?: number }): Instant {
    finite(tt, 'a Julian date (TT)');
    inRange(tt - MJD_TO_JD);
    const rotation = earthRotation(tt - MJD_TO_JD);
    const universal = ut1 ?? tt - (rotation.taiMinusUt1S + TT_MINUS_TAI_S) / DAY_S;
    finite(universal, 'a Julian date (UT1)');
    if (Math.abs(tt - universal) > 1 / 24)
      throw new OutOfRangeError(
        `TT and UT1 differ by ${((tt - universal) * DAY_S).toFixed(0)} s: is one of them another day?`,
      );
    const [mjd, second] = civil(tt, universal);
    return new Instant(
      mjd,
      second,
      tt,
      universal,
      ut1 === undefined && rotation.predicted,
      ut1 === undefined ? rotation.note : 'UT1 as given',
      3,
    );
  }
  /** From milliseconds of UTC since 1970-01-01, as a `Date` counts them (no leap seconds). */
  static fromEpochMs(ms: number): Instant {
    finite(ms, 'milliseconds since 1970');
    const mjd = Math.floor(ms / 86_400_000);
    inRange(mjd + EPOCH_MJD);
    const second = (ms - mjd * 86_400_000) / 1000;
    return Instant.ofUtc(mjd + EPOCH_MJD, second, shownDecimals(second));
  }

  /** UT1 − UTC in seconds; before 1972, zero by definition. */
  get dut1Seconds(): number {
    return (this.ut1 - MJD_TO_JD - this.utcMjd) * DAY_S - this.utcSecond;
  }
  /** ΔT = TT − UT1 in seconds. */
  get deltaTSeconds(): number {
    return (this.tt - this.ut1) * DAY_S;
  }
  /** Milliseconds of UTC since 1970-01-01, for sorting and plots; 23:59:60 counts as the next 00:00:00. */
  get epochMs(): number {
    return (this.utcMjd - EPOCH_MJD) * 86_400_000 + this.utcSecond * 1000;
  }

  /** The instant that many SI seconds later; leap seconds counted. @throws OutOfRangeError outside 1600–2200. */
  plus(span: Duration): Instant {
    return Instant.ofTai(this.taiSeconds + span.seconds, this.decimals);
  }
  /** The time elapsed since `other`, in SI seconds, leap seconds counted. */
  minus(other: Instant): Duration {
    return Duration.seconds(this.taiSeconds - other.taiSeconds);
  }
  /** Negative when this is earlier. */
  compare(other: Instant): number {
    return this.taiSeconds - other.taiSeconds;
  }

  /** Seconds on a continuous scale: TAI since 1972; before, UT1 plus 10 s. */
  private get taiSeconds(): number {
    return this.utcMjd * DAY_S + this.utcSecond + taiMinusUtc(this.utcMjd);
  }
  private static ofTai(seconds: number, decimals: number): Instant {
    // Sums of seconds since 1858 carry rounding noise of a microsecond; clocks here are read to a millisecond.
    const tai = Math.round(seconds * 1e4) / 1e4;
    let mjd = Math.floor((tai - taiMinusUtc(Math.floor(tai / DAY_S))) / DAY_S);
    inRange(mjd);
    let second = tai - taiMinusUtc(mjd) - mjd * DAY_S;
    const length = DAY_S + (endsWithLeapSecond(mjd) ? 1 : 0);
    if (second >= length) {
      second -= length;
      mjd += 1;
    } else if (second < 0) {
      mjd -= 1;
      second += DAY_S + (endsWithLeapSecond(mjd) ? 1 : 0);
    }
    second = Math.round(second * 1e4) / 1e4;
    return Instant.ofUtc(mjd, second, Math.max(Math.min(decimals, 4), shownDecimals(second)));
  }

  /** `2027-05-11T09:42:17Z`, with the fraction of the second that was given. */
  toIso(): string {
    const { date, time } = this.printed();
    return `${date}T${time}Z`;
  }
  /** `2027-05-11 09:42:17 UTC`, with the fraction of the second that was given. */
  toString(): string {
    const { date, time } = this.printed();
    return `${date} ${time} UTC`;
  }
  /** `2027-05-11 09:42:17 UTC`, rounded to the second, as the time of a sight is noted. */
  toSecond(): string {
    return this.decimals === 0
      ? this.toString()
      : Instant.fromEpochMs(Math.round(this.epochMs / 1000) * 1000).toString();
  }
  /** The nearest whole minute, as a time is written beside a line, a fix or a plan. */
  nearestMinute(): Instant {
    return Instant.fromEpochMs(Math.round(this.epochMs / 60_000) * 60_000);
  }
  /** `{ utc, text? }`, stable; `utc` in ISO form. */
  toJSON(): { utc: string; text?: string } {
    return this.text === undefined ? { utc: this.toIso() } : { utc: this.toIso(), text: this.text };
  }

  /** The civil date and time, rounded once to the decimals kept; a carry runs on into the date. */
  private printed(): { date: string; time: string } {
    const scale = 10 ** this.decimals;
    const length = DAY_S + (endsWithLeapSecond(this.utcMjd) ? 1 : 0);
    let units = Math.round(this.utcSecond * scale);
    let mjd = this.utcMjd;
    if (units >= length * scale) {
      units -= length * scale;
      mjd += 1;
    }
    const whole = Math.floor(units / scale);
    const leap = whole >= DAY_S;
    const [h, m] = leap ? [23, 59] : [Math.floor(whole / 3600), Math.floor(whole / 60) % 60];
    const s = (units - (h * 3600 + m * 60) * scale) / scale;
    const seconds = s
      .toFixed(this.decimals)
      .padStart(this.decimals > 0 ? this.decimals + 3 : 2, '0');
    const date = new Date((mjd - EPOCH_MJD) * 86_400_000).toISOString().slice(0, 10);
    return { date, time: `${two(h)}:${two(m)}:${seconds}` };
  }
}

const two = (n: number) => String(n).padStart(2, '0');

/** The fewest decimals, up to 3, that show a second to a tenth of a millisecond. */
function shownDecimals(second: number): number {
  for (let d = 0; d < 3; d++)
    if (Math.abs(second * 10 ** d - Math.round(second * 10 ** d)) < 1e-4 * 10 ** d) return d;
  return Math.min(3, MAX_DECIMALS);
}

function inRange(mjd: number): void {
  const first = mjdOf(timeTables.firstYear, 1, 1);
  const last = mjdOf(timeTables.lastYear, 12, 31) + 1;
  if (!(mjd >= first && mjd < last))
    throw new OutOfRangeError(
      `the years ${timeTables.firstYear} to ${timeTables.lastYear} are covered, not Julian date ${mjd + MJD_TO_JD}`,
    );
}

/** UTC day and second (UT1 before 1972) from Julian dates. */
function civil(tt: number, ut1: number): [number, number] {
  if (ut1 - MJD_TO_JD < FIRST_UTC_MJD) {
    const mjd = Math.floor(ut1 - MJD_TO_JD);
    return [mjd, (ut1 - MJD_TO_JD - mjd) * DAY_S];
  }
  const tai = tt - MJD_TO_JD - TT_MINUS_TAI_S / DAY_S;
  const mjd = Math.floor(tai - taiMinusUtc(Math.floor(tai)) / DAY_S + 5e-10);
  const second = Math.max(0, (tai - mjd) * DAY_S - taiMinusUtc(mjd));
  return [mjd, second];
}
