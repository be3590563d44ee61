import type { SlipKind } from '../../core/fix/index.js';
import type { BodyName } from '../../core/sky/index.js';
import type { HorizonWord, LimbWord } from '../columns/log-words.js';

/** A slip that a reading can be simulated with, by the name that the slip finder gives it. */
export type SimulatedSlip = Extract<
  SlipKind,
  'ten minutes' | 'whole degree' | 'wrong limb' | 'minute of time'
>;

/** An observer: reads too high by `biasArcmin` and scatters about it by `scatterArcmin`, one standard deviation. */
export interface SimulatedObserver {
  readonly name: string;
  readonly biasArcmin: number;
  readonly scatterArcmin: number;
}

/** Everything true about one reading, and what was noted where that differs. */
export interface ReadingTruth {
  readonly round: string;
  readonly sight: string;
  /** When the body was on the horizon, UTC, milliseconds since 1970. */
  readonly utcMs: number;
  readonly body: BodyName;
  readonly limb: LimbWord;
  /** Where the observer was. */
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly observer: SimulatedObserver;
  readonly instrument: string;
  /** The sextant's index error at that time, on the arc positive, and any error of its arc (reads too high positive). */
  readonly indexErrorArcmin: number;
  readonly arcErrorArcmin: number;
  readonly horizon: HorizonWord;
  readonly horizonDistanceM?: number;
  readonly eyeHeightM: number;
  /** How far the horizon stood off its computed dip: the reading is too high by it. */
  readonly dipErrorArcmin: number;
  readonly temperatureC: number;
  readonly pressureHpa: number;
  /** Seconds by which the noted time is later than the true one. */
  readonly clockErrorS: number;
  /** Factor on the observer's scatter, for the sea. */
  readonly roughness: number;
  readonly slip?: SimulatedSlip;
  readonly noted: NotedEntries;
}

/** What stands in the log, as text, beside body, limb, time and reading. */
export interface NotedEntries {
  readonly indexError?: string;
  readonly eyeHeight?: string;
  readonly positionKind?: 'known' | 'DR';
  readonly latDeg?: number;
  readonly lonDeg?: number;
  readonly course?: string;
  readonly speed?: string;
  readonly sea?: string;
  readonly accepted?: 'yes' | 'no';
  readonly reason?: string;
  readonly remarks?: string;
}

/** A reading as simulated: its error in the end, for the truth file. */
export interface SimulatedReading {
  readonly truth: ReadingTruth;
  readonly readingDeg: number;
  /** Scatter drawn for this reading, minutes of arc, bias not included. */
  readonly scatterArcmin: number;
  /** Time noted, milliseconds since 1970. */
  readonly notedMs: number;
}
