import { bodyNames, newPlaceNumbers, placeKernel, type BodyName } from '../../core/sky/index.js';
import { Instant, length, Length, type LengthText, type Position } from '../../core/units/index.js';
import { valueOrText } from '../../core/units/value-or-text.js';
import { oneOf, optional, record, text, within, ViewDataError } from '../check.js';
import { ephemerisPieces } from '../inputs/check-pieces.js';
import { BenchSky } from './bench-sky.js';
import { litLimb } from './bench-phase.js';
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
  /** The sea's horizon, or a basin of still liquid that doubles the angle. */
  readonly horizon: 'natural' | 'artificial';
  /** How far dark things are seen through the haze, metres; clear air where it is left out. */
  readonly visibilityM?: number;
  readonly seed: number;
  readonly ephemeris?: EphemerisPieces;
  readonly viewId?: string;
}

/** What is to be brought down on the practice bench, when and where. */
export interface BenchOptions {
  readonly body: BodyName;
  /** Sun: lower unless told; Moon: the limb that is lit at that time. */
  readonly limb?: 'lower' | 'upper';
  /** When the practice begins. */
  readonly time: string | Instant;
  /** Where the observer stands. */
  readonly position: Position;
  /** 2 m unless told. */
  readonly eyeHeight?: LengthText | Length;
  /** On the arc +, minutes of arc; 0 unless told. */
  readonly indexErrorArcmin?: number;
  readonly sea?: number;
  /** `artificial`: the body is brought to its own image in a basin of still liquid; the reading is the doubled angle. */
  readonly horizon?: 'natural' | 'artificial';
  /** Haze: how far dark things are seen, `3 nmi`. Nearer than the horizon, the sea ends at a false one. */
  readonly visibility?: LengthText | Length;
  /** The sea and the hand's motion follow from it. */
  readonly seed?: number;
}

/** How long a session may last from its start, hours. */
export const BENCH_HOURS = 3;

/** @throws EntryError for a time, height or distance that cannot be read */
export function benchData(options: BenchOptions, viewId?: string): BenchData {
  const { body, position, seed = 1, sea = 0, horizon = 'natural' } = options;
  const from = valueOrText(Instant, options.time, (text) => Instant.utc(text));
  const metres = (given: LengthText | Length) => valueOrText(Length, given, length).metres;
  const ephemeris = ephemerisUsedBy(() => {
    for (const h of [0, BENCH_HOURS]) {
      const at = Instant.fromEpochMs(from.epochMs + h * 3_600_000);
      for (const name of [body, 'Sun'] as const)
        placeKernel(name, at.tt, at.ut1, newPlaceNumbers());
    }
  });
  const data = checkBenchData({
    format: 1,
    body,
    limb: body === 'Sun' || body === 'Moon' ? (options.limb ?? 'lower') : 'centre',
    fromMs: from.epochMs,
    latDeg: position.latDeg,
    lonDeg: position.lonDeg,
    eyeHeightM: metres(options.eyeHeight ?? '2 m'),
    indexErrorArcmin: options.indexErrorArcmin ?? 0,
    temperatureC: 15,
    pressureHpa: 1015,
    sea,
    horizon,
    ...(options.visibility === undefined ? {} : { visibilityM: metres(options.visibility) }),
    seed,
    ...(ephemeris ? { ephemeris } : {}),
    ...(viewId ? { viewId } : {}),
  });
  if (body !== 'Moon' || options.limb) return data;
  const { phase } = new BenchSky(data).bodyAt(data.fromMs);
  return phase ? { ...data, limb: litLimb(phase) } : data;
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
  horizon: optional(oneOf('natural', 'artificial')),
  visibilityM: optional(within(50, 1e6)),
  seed: within(-(2 ** 31), 2 ** 31),
  ephemeris: optional(ephemerisPieces),
  viewId: optional(text),
});

/** Data of the bench out of a notebook file. @throws ViewDataError naming the field that is wrong */
export function checkBenchData(value: unknown): BenchData {
  const data = fields(value, '') as Omit<BenchData, 'horizon'> & Partial<BenchData>;
  if (!(bodyNames as readonly string[]).includes(data.body))
    throw new ViewDataError('body', 'Sun, Moon, a planet or a navigational star', data.body);
  const isDisc = data.body === 'Sun' || data.body === 'Moon';
  if (isDisc === (data.limb === 'centre'))
    throw new ViewDataError('limb', isDisc ? 'lower or upper' : 'centre', data.limb);
  return { ...data, horizon: data.horizon ?? 'natural' };
}
