import { Angle } from '../units/angle.js';
import { Instant } from '../units/instant.js';
import { Position } from '../units/position.js';
import { shown } from './shown.js';
import { Duration, Length, Pressure, Speed, Temperature } from '../units/scalar.js';

type Plain = Readonly<Record<string, unknown>>;
const text = (o: Plain) => (typeof o.text === 'string' ? o.text : undefined);
const number = (o: Plain, key: string) => o[key] as number;

/** Value objects by the key that their JSON carries. */
const BY_KEY: Readonly<Record<string, (o: Plain) => unknown>> = {
  degrees: (o) => Angle.degrees(number(o, 'degrees'), text(o)),
  metres: (o) => Length.metres(number(o, 'metres'), text(o)),
  celsius: (o) => Temperature.celsius(number(o, 'celsius'), text(o)),
  hectopascals: (o) => Pressure.hectopascals(number(o, 'hectopascals'), text(o)),
  knots: (o) => Speed.knots(number(o, 'knots'), text(o)),
  seconds: (o) => Duration.seconds(number(o, 'seconds')),
  utc: (o) => Instant.utc(shown(o.utc)),
  latDeg: (o) => Position.degrees(number(o, 'latDeg'), number(o, 'lonDeg')),
};

/**
 * Turns the JSON of value objects back into value objects, however deep; all else is left as it is.
 * @throws OutOfRangeError or EntryError where a figure is impossible
 */
export function revive(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(revive);
  if (typeof value !== 'object' || value === null) return value;
  if (Object.getPrototypeOf(value) !== Object.prototype) return value;
  const plain = value as Plain;
  const key = Object.keys(BY_KEY).find((k) => k in plain);
  const make = key === undefined ? undefined : BY_KEY[key];
  if (make) return make(plain);
  return Object.fromEntries(Object.entries(plain).map(([k, v]) => [k, revive(v)]));
}
