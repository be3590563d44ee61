import { EntryError } from './errors.js';
import { Duration, Length, Pressure, Speed, Temperature } from './scalar.js';

/** A length with its unit: `'2.6 m'`, `'9 ft'`, `'3.1 nmi'`. */
export type LengthText = `${number} m` | `${number} ft` | `${number} km` | `${number} nmi`;
/** A speed with its unit: `'5.2 kn'`. */
export type SpeedText = `${number} kn` | `${number} m/s` | `${number} km/h`;
/** A temperature with its unit: `'21 °C'`, `'70 °F'`. */
export type TemperatureText = `${number} °C` | `${number} °F`;
/** A pressure with its unit: `'1010 hPa'`, `'29.83 inHg'`. */
export type PressureText = `${number} hPa` | `${number} mbar` | `${number} inHg`;

const NUMBER = /^\s*([+\-−]?\s*(?:\d+(?:\.\d*)?|\.\d+))\s*/;

interface Unit<T> {
  readonly pattern: RegExp;
  readonly make: (value: number, text: string) => T;
}
interface Family<T> {
  readonly noun: string;
  readonly form: string;
  readonly units: readonly Unit<T>[];
  /** A reason to refuse a unit text, such as `M`, that could mean two things. */
  readonly ambiguous?: (unit: string) => string | undefined;
}

function read<T>(text: string, family: Family<T>): T {
  const { noun, form, units } = family;
  if (typeof text !== 'string')
    throw new EntryError(`A ${noun} is read from text with its unit. Write ${form}.`, String(text));
  const head = NUMBER.exec(text);
  if (!head?.[1]) {
    const comma = /^\s*[+\-−]?\d+,\d/.test(text);
    throw new EntryError(
      `A ${noun} starts with a number. Write ${form}.`,
      text,
      comma ? text.indexOf(',') : 0,
    );
  }
  const value = Number(head[1].replace(/\s/g, '').replace('−', '-'));
  const unit = text.slice(head[0].length).trim();
  const at = head[0].length;
  if (unit.startsWith(','))
    throw new EntryError(
      `A comma is not used here; write a decimal point. Write ${form}.`,
      text,
      at,
    );
  if (unit === '')
    throw new EntryError(`The ${noun} has no unit. Write ${form}.`, text, text.length);
  const doubt = family.ambiguous?.(unit);
  if (doubt) throw new EntryError(`${doubt} Write ${form}.`, text, at);
  const found = units.find((u) => u.pattern.test(unit));
  if (!found)
    throw new EntryError(`'${unit}' is not a unit of ${noun} known here. Write ${form}.`, text, at);
  if (!Number.isFinite(value))
    throw new EntryError(`That number is too long. Write ${form}.`, text, 0);
  return found.make(value, text);
}

const METRES_PER_CABLE = 185.2;
const AMBIGUOUS: Readonly<Record<string, string>> = {
  M: 'M could be metres or nautical miles.',
  sm: 'sm could be sea miles or statute miles.',
  SM: 'SM could be sea miles or statute miles.',
};
const lengths: Family<Length> = {
  noun: 'length',
  form: '2.6 m, 9 ft or 3.1 nmi',
  ambiguous: (unit) => AMBIGUOUS[unit],
  units: [
    { pattern: /^(?:m|metres?|meters?)$/i, make: Length.metres },
    { pattern: /^(?:ft|feet|foot|′|')$/i, make: Length.feet },
    { pattern: /^(?:nmi|nm|n\.? ?miles?|nautical miles?)$/i, make: Length.nauticalMiles },
    { pattern: /^km$/i, make: (v, t) => Length.metres(v * 1000, t) },
    { pattern: /^cables?$/i, make: (v, t) => Length.metres(v * METRES_PER_CABLE, t) },
  ],
};
const FEET_INCHES =
  /^\s*([+\-−]?)\s*(\d+)\s*(?:ft|feet|′|')\s*(\d+(?:\.\d+)?)\s*(?:in|inches|″|")\s*$/i;

/** A length with its unit: `2.6 m`, `9 ft`, `9 ft 6 in`, `3.1 nmi`, `2 cables`. @throws EntryError without a unit. */
export function length(text: string): Length {
  const both = typeof text === 'string' ? FEET_INCHES.exec(text) : null;
  if (both) {
    const inches = Number(both[3]);
    if (inches >= 12)
      throw new EntryError(
        'Inches must be under 12. Write 9 ft 6 in.',
        text,
        text.indexOf(both[3] ?? ''),
      );
    const feet = Number(both[2]) + inches / 12;
    return Length.feet(both[1] === '-' || both[1] === '−' ? -feet : feet, text);
  }
  return read(text, lengths);
}

/**
 * A speed with its unit: `5.2 kn`, `2.7 m/s`, `9.6 km/h`.
 * @throws EntryError without a unit
 */
export const speed = (text: string): Speed =>
  read(text, {
    noun: 'speed',
    form: '5.2 kn',
    units: [
      { pattern: /^(?:kn|kt|kts|knots?)$/i, make: Speed.knots },
      { pattern: /^m\/s$/i, make: (v, t) => Speed.knots((v * 3600) / 1852, t) },
      { pattern: /^km\/h$/i, make: (v, t) => Speed.knots(v / 1.852, t) },
    ],
  });

/**
 * An air temperature with its unit: `21 °C`, `70 °F`, `−3 C`.
 * @throws EntryError without a unit
 */
export const temperature = (text: string): Temperature =>
  read(text, {
    noun: 'temperature',
    form: '21 °C or 70 °F',
    ambiguous: (unit) => (/^[°º˚]$/.test(unit) ? 'Degrees of which scale?' : undefined),
    units: [
      { pattern: /^[°º˚]?\s*c(?:elsius)?$|^℃$/i, make: Temperature.celsius },
      { pattern: /^[°º˚]?\s*f(?:ahrenheit)?$|^℉$/i, make: Temperature.fahrenheit },
    ],
  });

/**
 * An air pressure with its unit: `1010 hPa`, `1010 mbar`, `29.83 inHg`.
 * @throws EntryError without a unit
 */
export const pressure = (text: string): Pressure =>
  read(text, {
    noun: 'pressure',
    form: '1010 hPa or 29.83 inHg',
    units: [
      { pattern: /^(?:hpa|mbar|mb|millibars?)$/i, make: Pressure.hectopascals },
      { pattern: /^(?:inhg|in ?hg|inches|in|["″])$/i, make: Pressure.inchesOfMercury },
      { pattern: /^mm ?hg$/i, make: (v, t) => Pressure.inchesOfMercury(v / 25.4, t) },
      { pattern: /^kpa$/i, make: (v, t) => Pressure.hectopascals(v * 10, t) },
    ],
  });

const CLOCK =
  /^\s*([+\-−]?)\s*(?:(\d+)\s*(?:h|:)\s*)?(?:(\d+)\s*(?:min|m|:)\s*)?(?:(\d+(?:\.\d+)?)\s*(?:s|sec|seconds?)?)?\s*$/i;
const DURATION_FORM = 'Write 42 s, 1 m 12 s or 2 h 05 m 00 s.';

/**
 * A span of time: `42 s`, `−1 m 12 s`, `2 h 05 m`, `0:01:12`; negative with a minus sign.
 * @throws EntryError without a unit, or on minutes or seconds of 60 and more behind a greater unit
 */
export function duration(text: string): Duration {
  const m = typeof text === 'string' ? CLOCK.exec(text) : null;
  if (!m || (m[2] ?? m[3] ?? m[4]) === undefined)
    throw new EntryError(`That is not a span of time. ${DURATION_FORM}`, String(text));
  if (/^\s*[+\-−]?\s*\d+(\.\d+)?\s*$/.test(text))
    throw new EntryError(`The time has no unit. ${DURATION_FORM}`, text);
  // With two numbers and one colon the first is minutes only where a unit says so: 1:12 is ambiguous.
  if (/^\D*\d+:\d+(\.\d+)?\s*$/.test(text))
    throw new EntryError(
      `${text.trim()} could be hours and minutes or minutes and seconds. ${DURATION_FORM}`,
      text,
    );
  const [h, min, s] = [Number(m[2] ?? 0), Number(m[3] ?? 0), Number(m[4] ?? 0)];
  if ((m[2] !== undefined && min >= 60) || ((m[2] ?? m[3]) !== undefined && s >= 60))
    throw new EntryError(`Minutes and seconds must be under 60. ${DURATION_FORM}`, text);
  const total = h * 3600 + min * 60 + s;
  return Duration.seconds(m[1] === '-' || m[1] === '−' ? -total : total);
}
