import {
  altitudeStagesKernel,
  blankStages,
  type AltitudeInput,
} from '../sextant/altitude-kernel.js';
import type { BodyName } from '../sky/body-names.js';
import { newPlaceNumbers, placeKernel } from '../sky/place-kernel.js';
import { altitudeKernel, type AltAz } from './altitude-kernel.js';

/** One sight in plain numbers: everything from reading to intercept. */
export interface ReductionInput {
  body: BodyName;
  /** Julian dates of terrestrial and universal time. */
  ttJd: number;
  ut1Jd: number;
  /** Position to reduce at, north and east positive. */
  latDeg: number;
  lonDeg: number;
  /** What the arc shows, degrees. */
  readingDeg: number;
  /** −1 lower, 0 centre, +1 upper. */
  limb: -1 | 0 | 1;
  /** On the arc positive. */
  indexErrorArcmin: number;
  /** Correction of the certificate, to be added. */
  instrumentArcmin: number;
  horizon: AltitudeInput['horizon'];
  eyeHeightM: number;
  /** Distance of the waterline with the short horizon, else NaN. */
  distanceM: number;
  temperatureC: number;
  pressureHpa: number;
  /** From centre of light to centre of disc, to be added; 0 but for Venus and Mars. */
  phaseArcmin: number;
}

/** Result of a reduction in plain numbers. */
export interface ReductionNumbers {
  /** Ho, degrees; NaN where the reading is impossible. */
  observedDeg: number;
  /** Hc, degrees. */
  computedDeg: number;
  /** Zn, degrees, 0 included to 360 excluded. */
  azDeg: number;
  /** Observed less computed, toward the body positive; NaN where the reading is impossible. */
  interceptArcmin: number;
}

/** Numbers for the kernel to fill, so that many reductions take no new memory. */
export const newReductionNumbers = (): ReductionNumbers => ({
  observedDeg: 0,
  computedDeg: 0,
  azDeg: 0,
  interceptArcmin: 0,
});

const place = newPlaceNumbers();
const stages = blankStages();
const computed: AltAz = { altDeg: 0, azDeg: 0 };
const altitude: AltitudeInput = {
  readingDeg: 0,
  indexErrorArcmin: 0,
  instrumentArcmin: 0,
  horizon: 'natural',
  eyeHeightM: 0,
  distanceM: NaN,
  temperatureC: 10,
  pressureHpa: 1010,
  refractionModel: 'formula',
  limb: 0,
  sdArcmin: 0,
  hpArcmin: 0,
  moon: false,
  latDeg: NaN,
  azimuthDeg: NaN,
  phaseArcmin: 0,
};

/**
 * Place of the body, every correction of the altitude, computed altitude and azimuth, intercept: the whole reduction
 * without allocating. Refraction by formula. Units stand in the names of the fields.
 * @param out written into and returned; NaN where the reading is impossible
 * @throws OutOfRangeError outside the years 1600 to 2200
 */
export function reductionKernel(
  input: Readonly<ReductionInput>,
  out: ReductionNumbers = newReductionNumbers(),
): ReductionNumbers {
  placeKernel(input.body, input.ttJd, input.ut1Jd, place);
  altitudeKernel(input.latDeg, input.lonDeg, place.ghaDeg, place.decDeg, computed);
  altitude.readingDeg = input.readingDeg;
  altitude.indexErrorArcmin = input.indexErrorArcmin;
  altitude.instrumentArcmin = input.instrumentArcmin;
  altitude.horizon = input.horizon;
  altitude.eyeHeightM = input.eyeHeightM;
  altitude.distanceM = input.distanceM;
  altitude.temperatureC = input.temperatureC;
  altitude.pressureHpa = input.pressureHpa;
  altitude.limb = input.limb;
  altitude.sdArcmin = place.sdArcmin;
  altitude.hpArcmin = place.hpArcmin;
  altitude.moon = input.body === 'Moon';
  altitude.latDeg = input.latDeg;
  altitude.azimuthDeg = computed.azDeg;
  altitude.phaseArcmin = input.phaseArcmin;
  out.observedDeg = altitudeStagesKernel(altitude, stages).observedDeg;
  out.computedDeg = computed.altDeg;
  out.azDeg = computed.azDeg;
  out.interceptArcmin = (out.observedDeg - out.computedDeg) * 60;
  return out;
}

/** Columns of a batch of sights, all of one length. */
export interface ReductionColumns {
  readonly body: readonly BodyName[];
  readonly ttJd: Float64Array;
  readonly ut1Jd: Float64Array;
  /** North positive. */
  readonly latDeg: Float64Array;
  /** East positive. */
  readonly lonDeg: Float64Array;
  readonly readingDeg: Float64Array;
  /** −1 lower, 0 centre, +1 upper. */
  readonly limb: Int8Array;
  readonly indexErrorArcmin: Float64Array;
  readonly eyeHeightM: Float64Array;
  readonly temperatureC: Float64Array;
  readonly pressureHpa: Float64Array;
}

/** Intercepts and azimuths of a batch. */
export interface ReductionResults {
  /** Observed less computed, toward the body positive; NaN where the reading is impossible. */
  readonly interceptArcmin: Float64Array;
  /** Zn, degrees. */
  readonly azDeg: Float64Array;
}

/**
 * Reduces a batch of sights to the sea horizon, column by column; memory is that of the columns. Units stand in the names of the columns.
 * @returns intercepts, toward positive, and true azimuths; NaN where a reading is impossible
 * @throws OutOfRangeError outside the years 1600 to 2200
 */
export function reduceColumns(columns: ReductionColumns): ReductionResults {
  const n = columns.body.length;
  const results = { interceptArcmin: new Float64Array(n), azDeg: new Float64Array(n) };
  const input: ReductionInput = {
    body: 'Sun',
    ttJd: 0,
    ut1Jd: 0,
    latDeg: 0,
    lonDeg: 0,
    readingDeg: 0,
    limb: 0,
    indexErrorArcmin: 0,
    instrumentArcmin: 0,
    horizon: 'natural',
    eyeHeightM: 0,
    distanceM: NaN,
    temperatureC: 10,
    pressureHpa: 1010,
    phaseArcmin: 0,
  };
  const out = newReductionNumbers();
  for (let i = 0; i < n; i++) {
    input.body = columns.body[i] as BodyName;
    input.ttJd = columns.ttJd[i] as number;
    input.ut1Jd = columns.ut1Jd[i] as number;
    input.latDeg = columns.latDeg[i] as number;
    input.lonDeg = columns.lonDeg[i] as number;
    input.readingDeg = columns.readingDeg[i] as number;
    input.limb = columns.limb[i] as -1 | 0 | 1;
    input.indexErrorArcmin = columns.indexErrorArcmin[i] as number;
    input.eyeHeightM = columns.eyeHeightM[i] as number;
    input.temperatureC = columns.temperatureC[i] as number;
    input.pressureHpa = columns.pressureHpa[i] as number;
    reductionKernel(input, out);
    results.interceptArcmin[i] = out.interceptArcmin;
    results.azDeg[i] = out.azDeg;
  }
  return results;
}
