import { apparentPlace, type ApparentPlace, type BodyName } from '../../core/sky/index.js';
import { Instant } from '../../core/units/index.js';

/** Place of a body as plain numbers; the full one on demand. */
export interface FullPlace {
  readonly ghaDeg: number;
  readonly decDeg: number;
  /** Semi-diameter; zero where the body is taken as a point. */
  readonly sdArcmin: number;
  readonly hpArcmin: number;
  readonly apparent: () => ApparentPlace;
}

/** Geocentric apparent place of date. @param utcMs UTC, milliseconds since 1970 */
export function bodyPlace(body: BodyName, utcMs: number): FullPlace {
  const place = apparentPlace(body, Instant.fromEpochMs(utcMs));
  const disc = body === 'Sun' || body === 'Moon';
  return {
    ghaDeg: place.gha.degrees,
    decDeg: place.declination.degrees,
    sdArcmin: disc ? place.semidiameter.arcminutes : 0,
    hpArcmin: place.horizontalParallax.arcminutes,
    apparent: () => place,
  };
}
