import { altitudeKernel } from '../../core/line/altitude-kernel.js';
import {
  blankStages,
  altitudeStagesKernel,
  type AltitudeInput,
} from '../../core/sextant/altitude-kernel.js';
import { ASSUMED_EYE_HEIGHT } from '../../core/sextant/horizon.js';
import { horizonDistanceKernel } from '../../core/sextant/dip-kernel.js';
import { limbSign } from '../../core/sextant/limb.js';
import {
  STANDARD_PRESSURE_HPA,
  STANDARD_TEMPERATURE_C,
} from '../../core/sextant/refraction-kernel.js';
import { planetPhase } from '../../core/sextant/planet-phase.js';
import type { Sight } from '../../core/sextant/index.js';
import type { BodyName } from '../../core/sky/index.js';
import { Position } from '../../core/units/index.js';
import type { CellValue } from '../columns/column.js';
import type { HorizonWord, LimbWord } from '../columns/log-words.js';
import { bodyPlace, type FullPlace } from './body-place.js';

type Columns = Record<string, ArrayLike<CellValue>>;

/** Observed altitude, computed altitude, azimuth, and hour angle and declination of each row; NaN where unknown. */
export interface Altitudes {
  readonly hoDeg: Float64Array;
  readonly hcDeg: Float64Array;
  readonly znDeg: Float64Array;
  readonly ghaDeg: Float64Array;
  readonly decDeg: Float64Array;
}

/**
 * Works every reading by the kernels that the workings use, without steps: what an `observedAltitude` working gives
 * to 1e-9 degrees. Rows without a position have no Hc and no azimuth.
 */
export function altitudes(columns: Columns, rows: number): Altitudes {
  const make = () => new Float64Array(rows).fill(NaN);
  const out = { hoDeg: make(), hcDeg: make(), znDeg: make(), ghaDeg: make(), decDeg: make() };
  const number = (key: string, i: number, otherwise: number): number => {
    const value = columns[key]?.[i];
    return typeof value === 'number' ? value : otherwise;
  };
  const stages = blankStages();
  const altAz = { altDeg: 0, azDeg: 0 };
  for (let i = 0; i < rows; i++) {
    const body = columns['body']?.[i] as BodyName;
    const limb = columns['limb']?.[i] as LimbWord;
    const place = bodyPlace(body, number('utcMs', i, NaN));
    const latDeg = number('latDeg', i, NaN);
    const lonDeg = number('lonDeg', i, NaN);
    out.ghaDeg[i] = place.ghaDeg;
    out.decDeg[i] = place.decDeg;
    if (!Number.isNaN(latDeg)) {
      altitudeKernel(latDeg, lonDeg, place.ghaDeg, place.decDeg, altAz);
      out.hcDeg[i] = altAz.altDeg;
      out.znDeg[i] = altAz.azDeg;
    }
    const eyeHeightM = number('eyeHeightM', i, ASSUMED_EYE_HEIGHT.metres);
    const distanceM = number('horizonDistanceM', i, NaN);
    const input: AltitudeInput = {
      readingDeg: number('readingDeg', i, NaN),
      indexErrorArcmin: number('indexErrorArcmin', i, 0),
      instrumentArcmin: 0,
      horizon: horizonUsed(columns['horizon']?.[i] as HorizonWord | null, eyeHeightM, distanceM),
      eyeHeightM,
      distanceM,
      temperatureC: number('temperatureC', i, STANDARD_TEMPERATURE_C),
      pressureHpa: number('pressureHpa', i, STANDARD_PRESSURE_HPA),
      refractionModel: 'formula above 10°',
      limb: limbSign(limb),
      sdArcmin: place.sdArcmin,
      hpArcmin: place.hpArcmin,
      moon: body === 'Moon',
      latDeg,
      azimuthDeg: out.znDeg[i] ?? NaN,
      phaseArcmin: phaseArcmin(body, place, latDeg, lonDeg),
    };
    out.hoDeg[i] = altitudeStagesKernel(input, stages).observedDeg;
  }
  return out;
}

/** Correction from the centre of light to the centre of the disc; Venus and Mars only. */
export function phaseArcmin(
  body: BodyName,
  place: FullPlace,
  latDeg: number,
  lonDeg: number,
): number {
  if ((body !== 'Venus' && body !== 'Mars') || Number.isNaN(latDeg)) return 0;
  const sight = { body, instant: place.apparent().instant, dr: Position.degrees(latDeg, lonDeg) };
  const whole = { ...place.apparent(), printed: false };
  return planetPhase(sight as unknown as Sight, whole)?.correctionArcmin ?? 0;
}

/** A waterline beyond the sea horizon is none: the sea horizon itself is seen. */
function horizonUsed(kind: HorizonWord | null, eyeHeightM: number, distanceM: number): HorizonWord {
  if (kind !== 'short') return kind ?? 'natural';
  return distanceM >= horizonDistanceKernel(eyeHeightM) ? 'natural' : 'short';
}
