import { seededRandom } from '../../core/fix/random.js';
import type { BodyName } from '../../core/sky/index.js';
import type { Angle, Position, Pressure, Temperature } from '../../core/units/index.js';
import { Instant, Length, length, type LengthText } from '../../core/units/index.js';
import { valueOrText } from '../../core/units/value-or-text.js';
import type { HorizonWord, LimbWord } from '../columns/log-words.js';
import * as print from '../columns/print-value.js';
import type { SightLog } from '../sight-log.js';
import { simulateReading } from './simulate-reading.js';
import { simulatedNote, written } from './simulated-log.js';
import type { SimulatedReading, SimulatedSlip } from './truth.js';

/** What to simulate: readings of one body from one known place. */
export interface SimulationFields {
  /** Any whole number; the same seed gives the same readings everywhere. */
  readonly seed: number;
  /** Where the readings are truly taken. */
  readonly position: Position;
  readonly body: BodyName;
  /** Sun and Moon: lower unless told. */
  readonly limb?: LimbWord;
  /** When each reading is taken; `evenTimes` makes such a list. */
  readonly times: readonly Instant[];
  /** How many readings make one sight, 3 unless told. */
  readonly readingsPerSight?: number;
  readonly horizon?: HorizonWord;
  readonly horizonDistance?: LengthText | Length;
  /** 2 m unless told. */
  readonly eyeHeight?: LengthText | Length;
  /** 15 °C and 1015 hPa unless told; the log notes them. */
  readonly temperature?: Temperature;
  /** See `temperature`. */
  readonly pressure?: Pressure;
  /** Reads too high by `bias`, scatters by `scatter` (1σ); 0′ and 0.6′ unless told. */
  readonly observer?: { readonly name?: string; readonly bias?: Angle; readonly scatter?: Angle };
  /** True index error, on the arc positive, and the one noted, which is the true one unless told. */
  readonly instrument?: {
    readonly name?: string;
    readonly indexError?: Angle;
    readonly indexErrorNoted?: Angle;
  };
  /** Slips by number of the reading, from 0. */
  readonly slips?: Readonly<Record<number, SimulatedSlip>>;
}

/** A simulated log with what is true about it. */
export interface Simulation {
  readonly log: SightLog;
  readonly csv: string;
  readonly readings: readonly SimulatedReading[];
}

/**
 * Readings as a person would have taken and noted them, from the library's own almanac and a seeded error model.
 * The log says in its first line that it is simulated, and names the seed.
 * @throws OutOfRangeError when the body is below the horizon at one of the times
 */
export function simulateReadings(fields: SimulationFields): Simulation {
  const random = seededRandom(fields.seed);
  const disc = fields.body === 'Sun' || fields.body === 'Moon';
  const perSight = fields.readingsPerSight ?? 3;
  const metresOf = (value: LengthText | Length) => valueOrText(Length, value, length).metres;
  const indexErrorArcmin = fields.instrument?.indexError?.arcminutes ?? 0;
  const horizon = fields.horizon ?? 'natural';
  const readings = fields.times.map((time, i) =>
    simulateReading(
      {
        round: 'practice',
        sight: String(Math.floor(i / perSight) + 1),
        utcMs: time.epochMs,
        body: fields.body,
        limb: disc ? (fields.limb ?? 'lower') : 'centre',
        latDeg: fields.position.latDeg,
        lonDeg: fields.position.lonDeg,
        observer: {
          name: fields.observer?.name ?? 'A',
          biasArcmin: fields.observer?.bias?.arcminutes ?? 0,
          scatterArcmin: fields.observer?.scatter?.arcminutes ?? 0.6,
        },
        instrument: fields.instrument?.name ?? '1',
        indexErrorArcmin,
        arcErrorArcmin: 0,
        horizon,
        ...(fields.horizonDistance === undefined
          ? {}
          : { horizonDistanceM: metresOf(fields.horizonDistance) }),
        eyeHeightM: metresOf(fields.eyeHeight ?? '2 m'),
        dipErrorArcmin: 0,
        temperatureC: fields.temperature?.celsius ?? 15,
        pressureHpa: fields.pressure?.hectopascals ?? 1015,
        clockErrorS: 0,
        roughness: 1,
        ...(fields.slips?.[i] ? { slip: fields.slips[i] } : {}),
        noted: {
          indexError: print.indexError(
            fields.instrument?.indexErrorNoted?.arcminutes ?? indexErrorArcmin,
          ),
          positionKind: 'known',
          latDeg: fields.position.latDeg,
          lonDeg: fields.position.lonDeg,
        },
      },
      random,
    ),
  );
  return written(readings, simulatedNote(fields.seed));
}

/**
 * `count` instants, the first at `from`, then every so many seconds.
 * @param everySeconds seconds of UTC; negative goes back
 */
export function evenTimes(from: Instant, count: number, everySeconds: number): Instant[] {
  return Array.from({ length: count }, (_, i) =>
    Instant.fromEpochMs(from.epochMs + i * everySeconds * 1000),
  );
}
