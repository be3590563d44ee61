import table from '../../../data/time-scales.json';

/** TT − TAI, seconds, by definition (IAU 1991 Recommendation IV). */
export const TT_MINUS_TAI_S = 32.184;
/** MJD of 1972-01-01, from which UTC differs from TAI by whole seconds. Before it, times are taken as UT1. */
export const FIRST_UTC_MJD = 41317;
/** Julian date of modified Julian date 0. */
export const MJD_TO_JD = 2400000.5;
/** Julian date of J2000.0 and MJD of 1970-01-01. */
export const J2000_JD = 2451545;
/** Modified Julian date of 1 January 1970, 0 h. */
export const EPOCH_MJD = 40587;

const LEAPS = table.leapSeconds;
const LAST_KNOT_MJD = table.firstMjd + table.stepDays * (table.taiMinusUt1Ms.length - 1);
const DAYS_PER_YEAR = 365.2425;
const FIRST_YEAR_MJD = mjdOfYear(table.deltaTFirstYear);
const LAST_YEAR = table.deltaTFirstYear + table.deltaTS.length - 1;

/** Where the Earth's rotation angle at an instant comes from. */
export interface EarthRotation {
  /** TAI − UT1, seconds. */
  readonly taiMinusUt1S: number;
  /** Whether it is a forecast. */
  readonly predicted: boolean;
  /** Its origin, as a working says it. */
  readonly note: string;
}

/**
 * TAI − UTC in whole seconds on that UTC day; 10 before 1972. Source: IERS Bulletin C.
 * @param mjd modified Julian day, UTC
 */
export function taiMinusUtc(mjd: number): number {
  for (let i = LEAPS.length - 1; i >= 0; i--) {
    const row = LEAPS[i];
    if (row && mjd >= row[0]) return row[1];
  }
  return 10;
}

/** Whether that UTC day ends with 23:59:60. @param mjd whole modified Julian day, UTC. */
export function endsWithLeapSecond(mjd: number): boolean {
  return LEAPS.some(([from], i) => i > 0 && from === mjd + 1);
}

/** Dates (MJD) the tables cover by observation and by IERS prediction, and what they are. */
export const timeTables = Object.freeze({
  source: table.source,
  deltaTSource: table.deltaTSource,
  lastObservedMjd: table.lastObservedMjd,
  lastPredictedMjd: LAST_KNOT_MJD,
  leapSecondListExpires: table.leapSecondListExpires,
  firstYear: table.deltaTFirstYear,
  lastYear: LAST_YEAR,
});

/**
 * TAI − UT1 in seconds by linear interpolation (to 0.003 s from 1962), with its origin: IERS observation, IERS prediction, or
 * outside both a ΔT of the year. Never fails.
 * @param mjd modified Julian date, any of UTC, UT1 or TT (the quantity changes by milliseconds a day)
 */
export function earthRotation(mjd: number): EarthRotation {
  if (mjd >= table.firstMjd && mjd <= LAST_KNOT_MJD) {
    const predicted = mjd > table.lastObservedMjd;
    return {
      taiMinusUt1S: knots(table.taiMinusUt1Ms, (mjd - table.firstMjd) / table.stepDays) / 1000,
      predicted,
      note: observedNote(mjd, predicted),
    };
  }
  if (mjd < table.firstMjd)
    return {
      taiMinusUt1S: modelDeltaT(mjd) - TT_MINUS_TAI_S,
      predicted: false,
      note: `ΔT from ${table.deltaTSource}; before 1972 the time is taken as UT1`,
    };
  return {
    taiMinusUt1S: beyondPrediction(mjd),
    predicted: true,
    note: `ΔT predicted, ${table.deltaTSource}, joined to the last IERS prediction; leap seconds not yet announced are not applied`,
  };
}

function observedNote(mjd: number, predicted: boolean): string {
  if (predicted) return `DUT1 predicted by the IERS (observed to ${dayOf(table.lastObservedMjd)})`;
  return mjd < FIRST_UTC_MJD
    ? 'ΔT observed by the IERS; before 1972 the time is taken as UT1'
    : 'DUT1 observed by the IERS';
}

/** `2026-11-03`. */
const dayOf = (mjd: number) => new Date((mjd - EPOCH_MJD) * 86_400_000).toISOString().slice(0, 10);

function modelDeltaT(mjd: number): number {
  return knots(table.deltaTS, yearsFrom(mjd));
}

/** From the last IERS knot to the next model year in a straight line, then the model. */
function beyondPrediction(mjd: number): number {
  const lastMs = table.taiMinusUt1Ms.at(-1) ?? 0;
  const joinYears = Math.ceil(yearsFrom(LAST_KNOT_MJD) + 0.5);
  const joinMjd = FIRST_YEAR_MJD + joinYears * DAYS_PER_YEAR;
  if (mjd >= joinMjd) return modelDeltaT(mjd) - TT_MINUS_TAI_S;
  const end = modelDeltaT(joinMjd) - TT_MINUS_TAI_S;
  const part = (mjd - LAST_KNOT_MJD) / (joinMjd - LAST_KNOT_MJD);
  return lastMs / 1000 + part * (end - lastMs / 1000);
}

const yearsFrom = (mjd: number) => (mjd - FIRST_YEAR_MJD) / DAYS_PER_YEAR;

/** Linear interpolation in equally spaced values, held at both ends. */
function knots(values: readonly number[], at: number): number {
  const i = Math.min(Math.max(Math.floor(at), 0), values.length - 2);
  const [a, b] = [values[i] ?? 0, values[i + 1] ?? 0];
  return a + Math.min(Math.max(at - i, 0), 1) * (b - a);
}

/** MJD of 1 January, Gregorian calendar. */
function mjdOfYear(year: number): number {
  return Date.UTC(year, 0, 1) / 86_400_000 + EPOCH_MJD;
}
