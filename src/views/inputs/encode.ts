import {
  Angle,
  Duration,
  Instant,
  Length,
  Position,
  Pressure,
  Speed,
  Temperature,
} from '../../core/units/index.js';

/** A value as view data hold it: plain JSON, quantities under a name that says what they are. */
export type Encoded =
  null | boolean | number | string | readonly Encoded[] | { readonly [key: string]: Encoded };

const MAX_DEPTH = 8;

/** Quantities, how each is written and read. The text as typed goes along. */
const KINDS: readonly {
  readonly tag: string;
  readonly is: (value: unknown) => boolean;
  readonly write: (value: never) => Encoded;
  readonly read: (value: number, text: string | undefined) => unknown;
}[] = [
  {
    tag: '°',
    is: (v) => v instanceof Angle,
    write: (v: Angle) => v.degrees,
    read: (n, text) => Angle.degrees(n, text),
  },
  {
    tag: 'm',
    is: (v) => v instanceof Length,
    write: (v: Length) => v.metres,
    read: (n, text) => Length.metres(n, text),
  },
  {
    tag: 'hPa',
    is: (v) => v instanceof Pressure,
    write: (v: Pressure) => v.hectopascals,
    read: (n, text) => Pressure.hectopascals(n, text),
  },
  {
    tag: '°C',
    is: (v) => v instanceof Temperature,
    write: (v: Temperature) => v.celsius,
    read: (n, text) => Temperature.celsius(n, text),
  },
  {
    tag: 'kn',
    is: (v) => v instanceof Speed,
    write: (v: Speed) => v.knots,
    read: (n, text) => Speed.knots(n, text),
  },
  {
    tag: 's',
    is: (v) => v instanceof Duration,
    write: (v: Duration) => v.seconds,
    read: (n) => Duration.seconds(n),
  },
];

/** Plain JSON of a value made of texts, numbers, lists, records, quantities, instants and positions. */
export function encode(value: unknown, depth = 0): Encoded {
  if (depth > MAX_DEPTH) throw new RangeError('a value nested too deeply to be shown again');
  if (value === null || value === undefined) return null;
  if (typeof value === 'string' || typeof value === 'boolean' || typeof value === 'number')
    return value;
  const kind = KINDS.find(({ is }) => is(value));
  if (kind) {
    const { text } = value as { text?: string };
    const number = kind.write(value as never);
    return text === undefined ? { [kind.tag]: number } : { [kind.tag]: number, text };
  }
  if (value instanceof Instant) return { instant: value.text ?? value.toIso() };
  if (value instanceof Position) return { latDeg: value.latDeg, lonDeg: value.lonDeg };
  if (Array.isArray(value)) return value.map((item) => encode(item, depth + 1));
  if (typeof value !== 'object') throw new RangeError(`a ${typeof value} cannot be shown again`);
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, item]) => item !== undefined && typeof item !== 'function')
      .map(([key, item]) => [key, encode(item, depth + 1)]),
  );
}

/** The value again. @throws RangeError or EntryError when it is not what `encode` writes. */
export function decode(value: unknown, depth = 0): unknown {
  if (depth > MAX_DEPTH) throw new RangeError('view data nested too deeply');
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((item) => decode(item, depth + 1));
  const record = value as Record<string, unknown>;
  const text = typeof record['text'] === 'string' ? record['text'] : undefined;
  for (const { tag, read } of KINDS) {
    const number = record[tag];
    if (typeof number === 'number') return read(number, text);
  }
  if (typeof record['instant'] === 'string') return Instant.utc(record['instant']);
  if (typeof record['latDeg'] === 'number' && typeof record['lonDeg'] === 'number')
    return Position.degrees(record['latDeg'], record['lonDeg']);
  return Object.fromEntries(
    Object.entries(record)
      .filter(([key]) => key !== '__proto__')
      .map(([key, item]) => [key, decode(item, depth + 1)]),
  );
}
