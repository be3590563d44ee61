import type { BenchData } from './bench-data.js';
import type { BenchMark } from './bench-log.js';
import type { BenchSky } from './bench-sky.js';
import { invertedTiltedAngle, tiltedAngle } from './optics.js';

/** How the sextant was held when the moment was marked. */
export interface Held {
  readonly readingDeg: number;
  readonly tiltDeg: number;
  readonly isInverted: boolean;
  /** When drum and arm were last moved. */
  readonly movedMs: number;
}

/** A touch farther off than this is no lag of the finger, but another kind of mistake. A choice. */
const LONGEST_LAG_S = 8;

const limbOf = ({ limb }: BenchData) => (limb === 'lower' ? -1 : limb === 'upper' ? 1 : 0);

/** What was true when the moment was marked, and what the reading's excess is made of. */
export function markAt(data: BenchData, sky: BenchSky, utcMs: number, held: Held): BenchMark {
  const { indexErrorArcmin, horizon } = data;
  const truthAt = (ms: number) => sky.readingAt(ms, limbOf(data), indexErrorArcmin);
  const truthDeg = truthAt(utcMs);
  const angle = truthDeg - indexErrorArcmin / 60;
  const tilted = held.isInverted ? invertedTiltedAngle : tiltedAngle;
  const tiltArcmin = horizon === 'artificial' ? 0 : 60 * (tilted(angle, held.tiltDeg) - angle);
  const contactArcmin = 60 * (held.readingDeg - truthDeg) - tiltArcmin;
  const rateArcminS = (60 * (truthAt(utcMs + 5000) - truthAt(utcMs - 5000))) / 10;
  return {
    notedMs: Math.round(utcMs / 1000) * 1000,
    readingDeg: held.readingDeg,
    truthDeg,
    tiltDeg: held.tiltDeg,
    tiltArcmin,
    contactArcmin,
    lagS: lagOf(contactArcmin, rateArcminS, utcMs - held.movedMs),
  };
}

/** The body reaches the reading by itself: from the touch to the mark, if the drum was left alone all that time. */
function lagOf(contactArcmin: number, rateArcminS: number, restedMs: number): number | null {
  const lagS = -contactArcmin / rateArcminS;
  if (!(Math.abs(lagS) < LONGEST_LAG_S)) return null;
  return restedMs / 1000 > Math.max(1, lagS) ? lagS : null;
}
