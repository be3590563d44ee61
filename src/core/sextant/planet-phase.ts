import { apparentPlace } from '../sky/apparent-place.js';
import type { Sight } from './sight.js';
import type { SightPlace } from './sight-stages.js';
import { lightCentreKernel, phaseCorrectionKernel } from './phase-kernel.js';
import { horizontalKernel } from './horizontal.js';

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

interface Direction {
  readonly gha: { readonly degrees: number };
  readonly declination: { readonly degrees: number };
}

/** Angle between two directions, radians. */
function separation(a: Direction, b: Direction): number {
  const [da, db] = [a.declination.degrees * RAD, b.declination.degrees * RAD];
  const dh = (a.gha.degrees - b.gha.degrees) * RAD;
  const across = Math.hypot(
    Math.cos(db) * Math.sin(dh),
    Math.cos(da) * Math.sin(db) - Math.sin(da) * Math.cos(db) * Math.cos(dh),
  );
  return Math.atan2(
    across,
    Math.sin(da) * Math.sin(db) + Math.cos(da) * Math.cos(db) * Math.cos(dh),
  );
}

/** Angle at the planet between the zenith and the Sun, degrees 0–180. */
function zenithToSun(latDeg: number, lonDeg: number, planet: Direction, sun: Direction): number {
  const at = (d: Direction) =>
    horizontalKernel(latDeg, lonDeg, d.gha.degrees, d.declination.degrees);
  const [p, s] = [at(planet), at(sun)];
  const dz = (s.azimuthDeg - p.azimuthDeg) * RAD;
  const [hp, hs] = [p.altDeg * RAD, s.altDeg * RAD];
  const up = Math.cos(hp) * Math.sin(hs) - Math.sin(hp) * Math.cos(hs) * Math.cos(dz);
  const side = Math.cos(hs) * Math.sin(dz);
  return Math.abs(Math.atan2(side, up)) / RAD;
}
