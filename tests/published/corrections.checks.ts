import { dipChecks } from './dip.checks.js';
import { moonParallaxChecks } from './moon-parallax.checks.js';
import { refractionChecks } from './refraction.checks.js';
import { sightChecks } from './sights.checks.js';
import type { Check } from './compare.js';

/** Every correction from the reading to the observed altitude against the outside. */
export function correctionChecks(): Check[] {
  return [...dipChecks(), ...refractionChecks(), ...moonParallaxChecks(), ...sightChecks()];
}
