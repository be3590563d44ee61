import {
  isSolarSystem,
  placeKernel,
  newPlaceNumbers,
  type BodyName,
  bodyNames,
} from '../../core/sky/index.js';
import {
  Instant,
  length,
  type Length,
  type LengthText,
  type Position,
} from '../../core/units/index.js';
import { oneOf, optional, record, text, within, ViewDataError } from '../check.js';
import { ephemerisPieces } from '../inputs/check-pieces.js';
import { ephemerisUsedBy, type EphemerisPieces } from '../inputs/ephemeris-pieces.js';

/** Data of the practice bench. */
export interface BenchData {
  readonly format: 1;
  readonly body: string;
  readonly limb: 'lower' | 'upper' | 'centre';
  readonly fromMs: number;
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly eyeHeightM: number;
  readonly indexErrorArcmin: number;
  readonly temperatureC: number;
  readonly pressureHpa: number;
  /** Roll and swell: 0 a beach, 1 a small vessel in a moderate sea. */
  readonly sea: number;
  readonly seed: number;
  readonly ephemeris?: EphemerisPieces;
  readonly viewId?: string;
}

export interface BenchOptions {
  readonly body: BodyName;
  /** Sun: lower unless told. */
  readonly limb?: 'lower' | 'upper';
  readonly time: string | Instant;
  readonly position: Position;
  /** 2 m unless told. */
  readonly eyeHeight?: LengthText | Length;
  /** On the arc +, minutes of arc; 0 unless told. */
  readonly indexErrorArcmin?: number;
  readonly sea?: number;
  /** The sea and the hand's motion follow from it. */
  readonly seed?: number;
}

/** How long a session may last from its start, hours. */
export const BENCH_HOURS = 3;

/** @throws EntryError for a time that cannot be read, RangeError for the Moon and planets, which the bench does not draw */
export function benchData(options: BenchOptions, viewId?: string): BenchData {
  const { body, position, seed = 1, sea = 0 } = options;
  if (isSolarSystem(body) && body !== 'Sun')
    throw new RangeError(
      `the bench shows the Sun and stars; ${body} has a phase that it does not draw yet`,
    );
  const from = typeof options.time === 'string' ? Instant.utc(options.time) : options.time;
  const eye = options.eyeHeight ?? '2 m';
  const ephemeris = ephemerisUsedBy(() => {
    for (const h of [0, BENCH_HOURS]) {
      const at = Instant.fromEpochMs(from.epochMs + h * 3_600_000);
      placeKernel(body, at.tt, at.ut1, newPlaceNumbers());
    }
  });
  return checkBenchData({
    format: 1,
    body,
    limb: body === 'Sun' ? (options.limb ?? 'lower') : 'centre',
    fromMs: from.epochMs,
    latDeg: position.latDeg,
    lonDeg: position.lonDeg,
    eyeHeightM: (typeof eye === 'string' ? length(eye) : eye).metres,
    indexErrorArcmin: options.indexErrorArcmin ?? 0,
    temperatureC: 15,
    pressureHpa: 1015,
    sea,
    seed,
    ...(ephemeris ? { ephemeris } : {}),
    ...(viewId ? { viewId } : {}),
  });
}

const fields = record({
  format: oneOf(1),
  body: text,
  limb: oneOf('lower', 'upper', 'centre'),
  fromMs: within(-1.1e13, 7.3e12),
  latDeg: within(-90, 90),
  lonDeg: within(-180, 180),
  eyeHeightM: within(0, 60),
  indexErrorArcmin: within(-30, 30),
  temperatureC: within(-40, 50),
  pressureHpa: within(850, 1085),
  sea: within(0, 3),
  seed: within(-(2 ** 31), 2 ** 31),
  ephemeris: optional(ephemerisPieces),
  viewId: optional(text),
});

/** Data of the bench out of a notebook file. @throws ViewDataError naming the field that is wrong */
export function checkBenchData(value: unknown): BenchData {
  const data = fields(value, '') as BenchData;
  if (
    !(bodyNames as readonly string[]).includes(data.body) ||
    (isSolarSystem(data.body as BodyName) && data.body !== 'Sun')
  )
    throw new ViewDataError('body', 'Sun or a navigational star', data.body);
  return data;
}
