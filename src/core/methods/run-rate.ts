import { computedAltitude } from '../line/computed-altitude.js';
import { apparentPlace } from '../sky/apparent-place.js';
import type { BodyName } from '../sky/body-names.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import { Duration } from '../units/scalar.js';

/** The body's own altitude during a run, less its altitude at the first time, by minutes since then. */
export function localRate(
  body: BodyName,
  position: Position,
  times: readonly { readonly instant: Instant }[],
) {
  const origin = (times[0] as { readonly instant: Instant }).instant;
  const altitude = (minutes: number) => {
    const { gha, declination } = apparentPlace(body, origin.plus(Duration.minutes(minutes)));
    return computedAltitude(position, gha, declination).altitude.arcminutes;
  };
  const first = altitude(0);
  return {
    curveArcmin: (minutes: number) => altitude(minutes) - first,
    slopeAt: (minutes: number) => altitude(minutes + 0.5) - altitude(minutes - 0.5),
  };
}
