import type { Fix } from '../../core/fix/index.js';
import type { Instant } from '../../core/units/index.js';
import type { Position } from '../../core/units/index.js';
import { rhumbBetween } from '../../core/line/index.js';
import { fixOrNull } from '../derived/round-fixes.js';
import { fractionEstimate, type Estimate } from '../statistics/intervals.js';
import type { SightLog } from '../sight-log.js';
import { observationOf } from '../../core/line/observation.js';

/** The fix of one round, and where the track has the vessel at that time. */
export interface PassageFix {
  readonly round: string;
  readonly fix: Fix;
  readonly instant: Instant;
  readonly sights: number;
  /** Where she was, by the track; null where it does not say. */
  readonly truth: Position | null;
  /** From the fix to the track, nautical miles and degrees true. */
  readonly missNm: number | null;
  readonly missDeg: number | null;
  /** Whether the region of that level holds the place on the track. */
  readonly inside: boolean | null;
}

/** The fixes of a passage beside the track: how many regions hold the true place. */
export interface PassageFixes {
  readonly fixes: readonly PassageFix[];
  readonly level: number;
  /** Fraction of the regions that hold the place on the track, with its exact interval. */
  readonly inside: Estimate;
  /** Median distance from the track, nautical miles. */
  readonly medianMissNm: number;
}

/** Two lines fix, one does not. */
const LEAST_SIGHTS = 2;

/** Fixes every round with two sights or more and compares with the track. */
export function passageFixes(log: SightLog, level = 0.95): PassageFixes {
  const fixes = log.rounds().flatMap(({ name, sights }) => {
    if (sights.length < LEAST_SIGHTS) return [];
    const found = fixOrNull(sights.map(observationOf), { level });
    if (!found || !found.region().bounded) return [];
    const truth = log.track?.at(found.instant) ?? null;
    const miss = truth && rhumbBetween(found.position, truth);
    return [
      {
        round: name,
        fix: found,
        instant: found.instant,
        sights: sights.length,
        truth,
        missNm: miss && miss.distance.nauticalMiles,
        missDeg: miss && miss.course.degrees,
        inside: truth && found.region().contains(truth),
      },
    ];
  });
  const compared = fixes.filter((f) => f.inside !== null);
  const misses = compared.map((f) => f.missNm ?? NaN).sort((a, b) => a - b);
  return {
    fixes,
    level,
    inside: fractionEstimate(compared.filter((f) => f.inside).length, compared.length, 0.95),
    medianMissNm: misses[Math.floor(misses.length / 2)] ?? NaN,
  };
}
