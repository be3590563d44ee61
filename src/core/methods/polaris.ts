import { localHourAngle } from '../line/computed-altitude.js';
import { observationOf, type Observed } from '../line/observation.js';
import { cosDeg, radians, sinDeg, tanDeg } from '../line/trig.js';
import { apparentPlace } from '../sky/apparent-place.js';
import { Angle } from '../units/angle.js';
import { formatCorrection, formatLatitude, formatLongitude } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import { Instant } from '../units/instant.js';
import { Uncertainty, Working, type Step } from '../working/working.js';
import { latitudeCauses, latitudeFrom, type LatitudeOptions } from './ex-meridian.js';
import { altitudeSteps, declinationStep } from './meridian.js';
import { methodStep } from './method-step.js';

const LONGITUDE_SIGMA = Angle.arcminutes(10);

/**
 * The two-term series behind the tables of the Pole Star (from memory): latitude less altitude, minutes of arc, north positive.
 * @param polarDeg polar distance
 * @param lhaDeg local hour angle of Polaris
 * @param altDeg observed altitude, under 90
 */
export function polarisCorrection(polarDeg: number, lhaDeg: number, altDeg: number): number {
  const first = -polarDeg * cosDeg(lhaDeg);
  const second = 0.5 * polarDeg * radians(polarDeg) * sinDeg(lhaDeg) ** 2 * tanDeg(altDeg);
  return (first + second) * 60;
}

/**
 * Latitude by the Pole Star: the two-term series, then the exact triangle, which is the value (north positive); its uncertainty in minutes
 * of latitude. Source: the series behind the tables, from memory.
 * @throws OutOfRangeError without a DR or when the sight is of another body
 */
export function latitudeByPolaris(sight: Observed, options: LatitudeOptions = {}): Working<Angle> {
  const o = observationOf(sight);
  if (o.body !== 'Polaris')
    throw new OutOfRangeError(`this method is for Polaris, and the sight is of ${o.body}`);
  const dr = options.dr ?? o.dr;
  if (!dr) throw new OutOfRangeError('Polaris needs a longitude for the hour angle: { dr }');
  const lha = localHourAngle(dr, o.gha);
  const polar = 90 - o.declination.degrees;
  const series = Angle.arcminutes(polarisCorrection(polar, lha.degrees, o.observed.degrees));
  const exact = latitudeFrom(o.observed.degrees, o.declination.degrees, lha.degrees, dr.latDeg);
  if (exact === null)
    throw new OutOfRangeError(
      `an altitude of ${o.observed.toString()} is impossible for Polaris here`,
    );
  const steps: [...Step[], Step<Angle>] = [
    ...altitudeSteps(o),
    declinationStep(o),
    methodStep({
      rule: 'local hour angle',
      title: 'Local hour angle',
      plain: 'LHA = GHA + longitude (E +, W −)',
      figures: `${o.gha.toString()}, longitude ${formatLongitude(dr.lonDeg)}: ${lha.toString()}`,
      result: lha,
    }),
    methodStep<Angle>({
      rule: 'series',
      title: 'Correction by two terms',
      kind: 'correction',
      plain: '−p cos LHA + ½ p² sin² LHA tan Ho',
      latex: '-p\\cos\\mathrm{LHA}+\\tfrac12 p^2\\sin^2\\mathrm{LHA}\\tan H_o',
      figures: `p ${(polar * 60).toFixed(1)}′: ${formatCorrection(series.arcminutes)}`,
      correction: series,
      result: o.observed.plus(series),
      source: 'the standard expansion behind the Polaris tables (from memory)',
    }),
    methodStep({
      rule: 'latitude',
      title: 'Latitude by the triangle',
      plain: 'cos(Lat − β) = sin Ho / r',
      figures: formatLatitude(exact),
      result: Angle.degrees(exact),
      written: formatLatitude(exact),
    }),
  ];
  return new Working<Angle>(
    `Latitude by Polaris: ${o.instant.toString()}`,
    steps,
    [],
    new Uncertainty(latitudeCauses(o, exact, dr, options.longitudeSigma ?? LONGITUDE_SIGMA)),
  );
}

/** A table for latitude by Polaris: Lat = Ho − 1° + a0 + a1 + a2, each column made positive by a constant. */
export interface PolarisTable {
  readonly year: number;
  /** Latitude for which a0 is made, degrees. */
  readonly meanLatDeg: number;
  /** LHA Aries of the rows, degrees. */
  readonly lhaAriesDeg: readonly number[];
  /** By LHA Aries, minutes of arc. */
  readonly a0: readonly number[];
  /** Latitudes of the columns of a1, degrees. */
  readonly latitudesDeg: readonly number[];
  /** By LHA Aries, then by latitude, minutes of arc. */
  readonly a1: readonly (readonly number[])[];
  /** By LHA Aries, then by month, January first. */
  readonly a2: readonly (readonly number[])[];
}

/** Constants that make the columns positive; they add up to 60′. */
const [C0, C1, C2] = [58.8, 0.6, 0.6];
const MEAN_LAT = 50;
const LATITUDES = [0, 10, 20, 30, 40, 45, 50, 55, 60, 62, 64, 66, 68];

/**
 * Makes the table of a year, minutes of arc, by `polarisCorrection` and the places of Polaris on the 15th of each month.
 * @param year 1600–2200
 * @param step degrees of LHA Aries between rows, 10 unless told
 * @throws EntryError outside those years
 */
export function polarisTable(year: number, step = 10): PolarisTable {
  const months = Array.from({ length: 12 }, (_, m) =>
    apparentPlace('Polaris', Instant.utcParts(year, m + 1, 15)),
  );
  const mean = (pick: (p: (typeof months)[number]) => number) =>
    months.reduce((s, p) => s + pick(p), 0) / months.length;
  // SHA moves by a degree or two in a year: its mean is safe where it does not wrap, as Polaris's does not.
  const sha = mean((p) => p.sha.degrees);
  const polar = 90 - mean((p) => p.declination.degrees);
  const rows = Array.from({ length: Math.ceil(360 / step) }, (_, i) => i * step);
  const correction = (p: number, lha: number, lat: number) => polarisCorrection(p, lha, lat);
  return {
    year,
    meanLatDeg: MEAN_LAT,
    lhaAriesDeg: rows,
    a0: rows.map((aries) => C0 + correction(polar, aries + sha, MEAN_LAT)),
    latitudesDeg: LATITUDES,
    a1: rows.map((aries) =>
      LATITUDES.map(
        (lat) =>
          C1 + correction(polar, aries + sha, lat) - correction(polar, aries + sha, MEAN_LAT),
      ),
    ),
    a2: rows.map((aries) =>
      months.map(
        (p) =>
          C2 +
          correction(90 - p.declination.degrees, aries + p.sha.degrees, MEAN_LAT) -
          correction(polar, aries + sha, MEAN_LAT),
      ),
    ),
  };
}

/**
 * Latitude from the table, north positive, interpolated by LHA Aries; latitude and month taken at the nearest column.
 * @param ho observed altitude of Polaris
 * @param lhaAries any turn
 * @param month 1–12
 * @throws OutOfRangeError for another month
 */
export function latitudeFromPolarisTable(
  table: PolarisTable,
  ho: Angle,
  lhaAries: Angle,
  latitude: Angle,
  month: number,
): Angle {
  if (!(month >= 1 && month <= 12)) throw new OutOfRangeError(`a month is 1 to 12, not ${month}`);
  const size = table.lhaAriesDeg.length;
  const at = (lhaAries.normalized().degrees / 360) * size;
  const [i, f] = [Math.floor(at), at - Math.floor(at)];
  const column = nearest(table.latitudesDeg, latitude.degrees);
  const row = (k: number) => {
    const r = k % size;
    return (
      (table.a0[r] as number) +
      ((table.a1[r] as number[])[column] as number) +
      ((table.a2[r] as number[])[month - 1] as number)
    );
  };
  return Angle.degrees(ho.degrees - 1).plus(Angle.arcminutes(row(i) * (1 - f) + row(i + 1) * f));
}

function nearest(list: readonly number[], x: number): number {
  return list.reduce(
    (best, v, i) => (Math.abs(v - x) < Math.abs((list[best] as number) - x) ? i : best),
    0,
  );
}
