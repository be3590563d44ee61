import type { AltitudeObservation } from '../line/observation.js';
import { apparentPlace } from '../sky/apparent-place.js';
import { isBodyName, type BodyName } from '../sky/body-names.js';
import { Duration } from '../units/scalar.js';

/** GHA and declination an hour around, to see how the body moves; null when it is no known body. */
function around(o: AltitudeObservation) {
  if (!isBodyName(o.body)) return null;
  const at = (minutes: number) =>
    apparentPlace(o.body as BodyName, o.instant.plus(Duration.minutes(minutes)));
  return { before: at(-30), after: at(30) };
}

/** Change of declination, minutes of arc a minute of time, north positive; 0 for a body that is not in the list. */
export function declinationRateArcminPerMinute(o: AltitudeObservation): number {
  const a = around(o);
  return a ? a.after.declination.minus(a.before.declination).arcminutes / 60 : 0;
}

/** Change of GHA, degrees an hour; that of a star for a body that is not in the list. */
export function ghaRateDegPerHour(o: AltitudeObservation): number {
  const a = around(o);
  return a ? a.after.gha.minus(a.before.gha).normalized().degrees : 15.0411;
}
