import { apparentPlace } from '../sky/apparent-place.js';
import type { Sight } from './sight.js';
import type { SightPlace } from './sight-stages.js';
import { lightCentreKernel, phaseCorrectionKernel } from './phase-kernel.js';
import { separation, zenithToSun } from './sunward.js';

/** Mean radius of Venus's and equatorial radius of Mars's disc, km (IAU Working Group on Cartographic Coordinates 2015, from memory). */
const RADIUS_KM = { Venus: 6051.8, Mars: 3396.19 } as const;
const RAD = Math.PI / 180;

/** The partly lit disc of Venus or Mars at a sight. */
export interface PlanetPhase {
  /** Semi-diameter of the whole disc, minutes of arc. */
  readonly sdArcmin: number;
  /** Angle Sun–planet–Earth. */
  readonly phaseAngleDeg: number;
  /** From the centre of the disc to the centre of light, towards the Sun, minutes of arc. */
  readonly offsetArcmin: number;
  /** At the planet, between the zenith and the Sun; absent without a DR. */
  readonly sunwardFromZenithDeg?: number;
  /** To be added to the altitude of the centre of light; 0 without a DR. */
  readonly correctionArcmin: number;
}

/**
 * Phase of Venus or Mars at a sight; nothing for another body, or when a printed almanac's figures are used (they
 * are taken to hold for the centre of light, as printed almanacs have included phase; common practice, no source).
 */
export function planetPhase(sight: Sight, place: SightPlace): PlanetPhase | undefined {
  const { body } = sight;
  if ((body !== 'Venus' && body !== 'Mars') || place.printed || !place.distanceKm) return undefined;
  const sun = apparentPlace('Sun', sight.instant);
  const sunKm = sun.distanceKm;
  if (sunKm === undefined) return undefined;
  const elongation = separation(place, sun);
  const phaseAngle = Math.atan2(
    sunKm * Math.sin(elongation),
    place.distanceKm - sunKm * Math.cos(elongation),
  );
  const phaseAngleDeg = phaseAngle / RAD;
  const sdArcmin = (Math.asin(RADIUS_KM[body] / place.distanceKm) / RAD) * 60;
  const offsetArcmin = sdArcmin * lightCentreKernel(phaseAngleDeg);
  const seen = { sdArcmin, phaseAngleDeg, offsetArcmin };
  if (!sight.dr) return { ...seen, correctionArcmin: 0 };
  const sunwardFromZenithDeg = zenithToSun(sight.dr.latDeg, sight.dr.lonDeg, place, sun);
  return {
    ...seen,
    sunwardFromZenithDeg,
    correctionArcmin: phaseCorrectionKernel(sdArcmin, phaseAngleDeg, sunwardFromZenithDeg),
  };
}
