import {
  apparentPlace,
  newPlaceNumbers,
  placeKernel,
  type ApparentPlace,
  type BodyName,
} from '../../core/sky/index.js';
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

const scratch = newPlaceNumbers();

/** Geocentric apparent place of date, by the kernel behind `apparentPlace`. @param utcMs UTC, milliseconds since 1970 */
export function bodyPlace(body: BodyName, utcMs: number): FullPlace {
  const instant = Instant.fromEpochMs(utcMs);
  const { ghaDeg, decDeg, sdArcmin, hpArcmin } = placeKernel(
    body,
    instant.tt,
    instant.ut1,
    scratch,
  );
  const disc = body === 'Sun' || body === 'Moon';
  return {
    ghaDeg,
    decDeg,
    sdArcmin: disc ? sdArcmin : 0,
    hpArcmin,
    apparent: () => apparentPlace(body, instant),
  };
}
