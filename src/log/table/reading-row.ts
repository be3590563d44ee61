import type { BodyName } from '../../core/sky/index.js';
import type { HorizonWord, LimbWord, PositionKind } from '../columns/log-words.js';

/**
 * One row of a sight log: one reading. Keys carry their unit; `…Text` is what was written. `null` means not noted.
 * Signs: north +, east +, index error + on the arc, watch error + fast, intercept + toward.
 */
export interface ReadingRow {
  /** Line of the file the row came from. */
  readonly line: number | null;
  readonly round: string;
  readonly sight: string;
  /** UTC, milliseconds since 1970. */
  readonly utcMs: number;
  readonly utcText: string | null;
  readonly watchMs: number | null;
  readonly watchText: string | null;
  readonly watchErrorS: number | null;
  readonly watchErrorText: string | null;
  readonly body: BodyName;
  readonly limb: LimbWord;
  readonly readingDeg: number;
  readonly readingText: string | null;
  readonly observer: string | null;
  readonly instrument: string | null;
  readonly indexErrorArcmin: number | null;
  readonly indexErrorText: string | null;
  readonly horizon: HorizonWord | null;
  readonly horizonDistanceM: number | null;
  readonly horizonDistanceText: string | null;
  readonly eyeHeightM: number | null;
  readonly eyeHeightText: string | null;
  readonly temperatureC: number | null;
  readonly temperatureText: string | null;
  readonly pressureHpa: number | null;
  readonly pressureText: string | null;
  readonly positionKind: PositionKind | null;
  readonly latDeg: number | null;
  readonly latText: string | null;
  readonly lonDeg: number | null;
  readonly lonText: string | null;
  readonly courseDeg: number | null;
  readonly courseText: string | null;
  readonly speedKn: number | null;
  readonly speedText: string | null;
  readonly seaState: number | null;
  readonly seaText: string | null;
  readonly statedSigmaArcmin: number | null;
  readonly statedSigmaText: string | null;
  readonly accepted: boolean;
  readonly reason: string | null;
  readonly remarks: string | null;
}

/** What is worked out from a row when it is first looked at; `null` where it cannot be. */
export interface DerivedRow {
  /** Observed altitude, degrees. */
  readonly hoDeg: number | null;
  /** Computed altitude at the row's position, degrees. */
  readonly hcDeg: number | null;
  /** Azimuth there, degrees true. */
  readonly znDeg: number | null;
  /** Ho − Hc at the row's position in nautical miles, + toward. */
  readonly interceptNm: number | null;
  /** Ho − Hc in minutes of arc at the reference: the track, the known position, else the fix of the round. */
  readonly residualArcmin: number | null;
  /** `track`, `known position` or `fix of the round`: what the residual is taken against. */
  readonly reference: string | null;
  /** Standard deviation of Ho from the error budget, or as stated, minutes of arc. */
  readonly sigmaArcmin: number | null;
  /** How far the fix of the round moves, in nautical miles, when the sight of this reading is left out. */
  readonly influenceNm: number | null;
}

export const derivedKeys = [
  'hoDeg',
  'hcDeg',
  'znDeg',
  'interceptNm',
  'residualArcmin',
  'reference',
  'sigmaArcmin',
  'influenceNm',
] as const satisfies readonly (keyof DerivedRow)[];
