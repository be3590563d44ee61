import { apparentPlace } from '../sky/apparent-place.js';
import type { SightStages } from './sight-stages.js';
import { separation, zenithToSun, type Direction } from './sunward.js';

const RAD = Math.PI / 180;
/** So near to full that even the dark limb is lit to within 0.15′: 15.5′ (1 − cos 8°). */
const NEARLY_FULL_DEG = 172;

/** The Moon's limb that is lit, seen from a place: the one on the Sun's side. Null near full, when either serves. @internal */
export function litLimb(
  latDeg: number,
  lonDeg: number,
  moon: Direction,
  sun: Direction,
): { limb: 'lower' | 'upper'; fromZenithDeg: number } | null {
  if (separation(moon, sun) / RAD > NEARLY_FULL_DEG) return null;
  const fromZenithDeg = zenithToSun(latDeg, lonDeg, moon, sun);
  return { limb: fromZenithDeg < 90 ? 'upper' : 'lower', fromZenithDeg };
}

/** A flag when the limb named of the Moon is the dark one at the DR. @internal */
export function moonLimbFlags({ sight, place, input }: SightStages): string[] {
  if (!input.moon || input.limb === 0 || !sight.dr) return [];
  const sun = apparentPlace('Sun', sight.instant);
  const lit = litLimb(sight.dr.latDeg, sight.dr.lonDeg, place, sun);
  if (!lit || lit.limb === sight.limb) return [];
  return [
    `The Moon’s ${sight.limb} limb is the dark one at the DR: the Sun lies ${lit.fromZenithDeg.toFixed(0)}° from the upright, so the ${lit.limb} limb is lit. Was the other limb observed?`,
  ];
}
