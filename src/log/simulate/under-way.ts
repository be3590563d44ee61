import { rhumbDestinationKernel } from '../../core/line/rhumb-kernel.js';
import type { BodyName } from '../../core/sky/index.js';
import { formatBearing } from '../../core/units/index.js';
import type { LimbWord } from '../columns/log-words.js';
import * as print from '../columns/print-value.js';
import { quillfeatherAt } from './passage.js';
import type { ReadingTruth, SimulatedObserver } from './truth.js';

/** What a reading from the yawl's deck on passage needs beyond her own motion. */
export interface DeckReading {
  readonly round: string;
  readonly sight: string;
  readonly utcMs: number;
  readonly body: BodyName;
  readonly limb: LimbWord;
  readonly observer: SimulatedObserver;
  readonly indexErrorArcmin: number;
  readonly dipErrorArcmin: number;
  /** How far the DR lies from the truth: true bearing and nautical miles. */
  readonly drOff: { readonly bearingDeg: number; readonly distanceNm: number };
  readonly temperatureC: number;
  readonly remarks?: string;
}

/** The truth of a reading taken on the passage of the yawl Quillfeather, from 2.6 m above the water. */
export function deckReading(r: DeckReading): ReadingTruth {
  const motion = quillfeatherAt(r.utcMs);
  const { bearingDeg, distanceNm } = r.drOff;
  const dr = rhumbDestinationKernel(motion.latDeg, motion.lonDeg, bearingDeg, distanceNm * 1852);
  return {
    round: r.round,
    sight: r.sight,
    utcMs: r.utcMs,
    body: r.body,
    limb: r.limb,
    latDeg: motion.latDeg,
    lonDeg: motion.lonDeg,
    observer: r.observer,
    instrument: 'sextant 1',
    indexErrorArcmin: r.indexErrorArcmin,
    arcErrorArcmin: 0,
    horizon: 'natural',
    eyeHeightM: 2.6,
    dipErrorArcmin: r.dipErrorArcmin,
    temperatureC: r.temperatureC,
    pressureHpa: 1016,
    clockErrorS: 0,
    roughness: 1,
    noted: {
      indexError: print.indexError(r.indexErrorArcmin),
      positionKind: 'DR',
      latDeg: dr.latDeg,
      lonDeg: dr.lonDeg,
      course: formatBearing(motion.courseDeg),
      speed: motion.speedKn.toFixed(1),
      ...(r.remarks ? { remarks: r.remarks } : {}),
    },
  };
}
