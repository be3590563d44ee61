import { apparentPlace } from '../sky/apparent-place.js';
import type { SightStages } from './sight-stages.js';
import { separation, zenithToSun } from './sunward.js';

const RAD = Math.PI / 180;
/** So near to full that even the dark limb is lit to within 0.15′: 15.5′ (1 − cos 8°). */
const NEARLY_FULL_DEG = 172;

/** A flag when the limb named of the Moon is the dark one at the DR. @internal */
export function moonLimbFlags({ sight, place, input }: SightStages): string[] {
  if (!input.moon || input.limb === 0 || !sight.dr) return [];
  const sun = apparentPlace('Sun', sight.instant);
  if (separation(place, sun) / RAD > NEARLY_FULL_DEG) return [];
  const fromZenith = zenithToSun(sight.dr.latDeg, sight.dr.lonDeg, place, sun);
  const lit = fromZenith < 90 ? 'upper' : 'lower';
  if (lit === sight.limb) return [];
  return [
    `The Moon’s ${sight.limb} limb is the dark one at the DR: the Sun lies ${fromZenith.toFixed(0)}° from the upright, so the ${lit} limb is lit. Was the other limb observed?`,
  ];
}
