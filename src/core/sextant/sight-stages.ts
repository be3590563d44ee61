import { OutOfRangeError } from '../units/errors.js';
import { Angle } from '../units/angle.js';
import { apparentPlace } from '../sky/apparent-place.js';
import {
  altitudeStagesKernel,
  type AltitudeInput,
  type AltitudeStages,
} from './altitude-kernel.js';
import { certificateKernel } from './certificate.js';
import { horizontalKernel } from './horizontal.js';
import { ASSUMED_EYE_HEIGHT } from './horizon.js';
import { limbSign } from './limb.js';
import { planetPhase, type PlanetPhase } from './planet-phase.js';
import { meanReadingDeg } from './readings.js';
import { STANDARD_PRESSURE_HPA, STANDARD_TEMPERATURE_C } from './refraction-kernel.js';
import type { Sight } from './sight.js';

/** Where the body is, by the sight's own almanac entry or computed. */
export interface SightPlace {
  /** Westward. */
  readonly gha: Angle;
  /** North positive. */
  readonly declination: Angle;
  /** Geocentric. */
  readonly semidiameter: Angle;
  /** Equatorial. */
  readonly horizontalParallax: Angle;
  readonly distanceKm?: number;
  /** What the working cites. */
  readonly source: string;
  readonly notes: readonly string[];
  /** Whether the figures were typed from a printed almanac. */
  readonly printed: boolean;
}

/** A sight with its place, the kernel's input and every stage from reading to observed altitude. */
export interface SightStages {
  readonly sight: Sight;
  readonly place: SightPlace;
  readonly input: AltitudeInput;
  readonly stages: AltitudeStages;
  readonly phase?: PlanetPhase;
}

/**
 * The place a sight is reduced with: the printed almanac's figures if typed in, else computed for its moment.
 * GHA westward, declination north positive.
 * @throws OutOfRangeError outside the years 1600 to 2200
 */
export function sightPlace(sight: Sight): SightPlace {
  if (sight.place) return { ...sight.place, notes: [], printed: true };
  const place = apparentPlace(sight.body, sight.instant);
  return {
    gha: place.gha,
    declination: place.declination,
    semidiameter: place.semidiameter,
    horizontalParallax: place.horizontalParallax,
    ...(place.distanceKm === undefined ? {} : { distanceKm: place.distanceKm }),
    source: place.source,
    notes: place.notes,
    printed: false,
  };
}

/**
 * The kernel's input for a sight, plain numbers: what is not given takes its stated default (eye 2 m, 10 °C, 1010 hPa, no index error).
 * @param place unless told, that of `sightPlace`
 */
export function altitudeInputOf(
  sight: Sight,
  place: SightPlace = sightPlace(sight),
): AltitudeInput {
  const readingDeg = meanReadingDeg(sight.readings);
  const disc = sight.body === 'Sun' || sight.body === 'Moon';
  const azimuthDeg = sight.dr
    ? horizontalKernel(
        sight.dr.latDeg,
        sight.dr.lonDeg,
        place.gha.degrees,
        place.declination.degrees,
      ).azimuthDeg
    : NaN;
  return {
    readingDeg,
    indexErrorArcmin: sight.indexError?.arcminutes ?? 0,
    instrumentArcmin: sight.instrumentTable
      ? certificateKernel(readingDeg, sight.instrumentTable)
      : 0,
    horizon: sight.horizon.kind,
    eyeHeightM: (sight.eyeHeight ?? ASSUMED_EYE_HEIGHT).metres,
    distanceM: sight.horizon.kind === 'short' ? sight.horizon.distance.metres : NaN,
    temperatureC: sight.temperature?.celsius ?? STANDARD_TEMPERATURE_C,
    pressureHpa: sight.pressure?.hectopascals ?? STANDARD_PRESSURE_HPA,
    refractionModel: sight.refractionModel,
    limb: limbSign(sight.limb),
    sdArcmin: disc ? place.semidiameter.arcminutes : 0,
    hpArcmin: place.horizontalParallax.arcminutes,
    moon: sight.body === 'Moon',
    latDeg: sight.dr?.latDeg ?? NaN,
    azimuthDeg,
    phaseArcmin: 0,
  };
}

/**
 * Works a sight through all stages.
 * @throws OutOfRangeError when the body is more than 1° below the horizon.
 */
export function stagesOf(sight: Sight): SightStages {
  const place = sightPlace(sight);
  const phase = planetPhase(sight, place);
  const input = { ...altitudeInputOf(sight, place), phaseArcmin: phase?.correctionArcmin ?? 0 };
  const stages = altitudeStagesKernel(input);
  if (Number.isNaN(stages.observedDeg))
    throw new OutOfRangeError(
      `the ${sight.bodyAndLimb} is below the horizon: the reading ${Angle.degrees(input.readingDeg)} gives an apparent altitude of ${Angle.degrees(stages.apparentDeg)}, and refraction is known down to −1°`,
    );
  return { sight, place, input, stages, ...(phase ? { phase } : {}) };
}
