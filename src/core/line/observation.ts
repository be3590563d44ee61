import type { AlmanacEntry } from '../sky/almanac-entry.js';
import { observedAltitude } from '../sextant/observed-altitude.js';
import { sightPlace } from '../sextant/sight-stages.js';
import { Sight } from '../sextant/sight.js';
import type { Angle } from '../units/angle.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import type { Duration, Speed } from '../units/scalar.js';
import type { ErrorCause, Working } from '../working/working.js';

/** An observed altitude ready for reduction: what a sight comes down to, or figures given directly. */
export interface AltitudeObservation {
  /** Name of the body as it shall appear. */
  readonly body: string;
  readonly instant: Instant;
  /** Observed altitude Ho. */
  readonly observed: Angle;
  /** Greenwich hour angle, westward, and declination, north positive, at `instant`. */
  readonly gha: Angle;
  readonly declination: Angle;
  /** Where the place of the body comes from. */
  readonly placeSource?: string;
  /** Causes of error of the altitude, one standard deviation each; a `sharedKey` ties sights together. */
  readonly causes: readonly ErrorCause[];
  /** Uncertainty of the time, one standard deviation; sights with one key share it. */
  readonly watch?: { readonly sigma: Duration; readonly key: string };
  readonly dr?: Position;
  readonly course?: Angle;
  readonly speed?: Speed;
  /** The sight it was made from and the working that led to Ho. */
  readonly sight?: Sight;
  readonly working?: Working<Angle>;
}

/** A sight, or an altitude already worked out. */
export type Observed = Sight | AltitudeObservation;

/**
 * Works a sight up to its observed altitude and looks up the body; an observation passes through.
 * @throws OutOfRangeError when the body is more than 1° below the horizon, or the time is outside 1600 to 2200
 */
export function observationOf(given: Observed): AltitudeObservation {
  if (!(given instanceof Sight)) return given;
  const place = placeOf(given);
  const working = observedAltitude(given);
  return Object.freeze({
    body: given.body,
    instant: given.instant,
    observed: working.value,
    gha: place.gha,
    declination: place.declination,
    placeSource: place.source,
    causes: working.uncertainty.causes,
    ...(given.watch ? { watch: { sigma: given.watch.sigma, key: given.watch.key } } : {}),
    ...(given.dr ? { dr: given.dr } : {}),
    ...(given.course ? { course: given.course } : {}),
    ...(given.speed ? { speed: given.speed } : {}),
    sight: given,
    working,
  });
}

/**
 * GHA (westward), declination (north positive) and their source for a sight's body: the almanac figures typed with it, or the computed place.
 * @throws OutOfRangeError outside the years 1600 to 2200
 */
export function placeOf(sight: Sight): Pick<AlmanacEntry, 'gha' | 'declination' | 'source'> {
  return sightPlace(sight);
}

/**
 * Change of GHA in minutes of arc per second of time: mean rates of Sun and Moon (hers varies by 0.5 %), of any other body the sidereal one.
 */
export function ghaRateArcminPerS(body: string): number {
  // Sidereal turn 15.0411′/min, Sun 15.0000′, Moon 14.4921′: mean motions, Explanatory Supplement to the Astronomical Almanac.
  return (body === 'Moon' ? 14.4921 : body === 'Sun' ? 15 : 15.0411) / 60;
}

/** `Sun 09:42:17`, a mean time rounded to the second as a sight prints it. */
export function label(observation: AltitudeObservation): string {
  return `${observation.body} ${observation.instant.toSecond().slice(11, 19)}`;
}
