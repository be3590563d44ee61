import type { AltitudeObservation } from '../line/observation.js';
import { apparentPlace } from '../sky/apparent-place.js';
import { isBodyName, type BodyName } from '../sky/body-names.js';
import { Duration } from '../units/scalar.js';

/** Change of declination, minutes of arc a minute of time, north positive; 0 for a body that is not in the list. */
export function declinationRateArcminPerMinute(o: AltitudeObservation): number {
  if (!isBodyName(o.body)) return 0;
  const body: BodyName = o.body;
  const at = (minutes: number) => apparentPlace(body, o.instant.plus(Duration.minutes(minutes)));
  return at(30).declination.minus(at(-30).declination).arcminutes / 60;
}
