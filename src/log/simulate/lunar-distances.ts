import { seededRandom } from '../../core/fix/random.js';
import { lunarDistance } from '../../core/methods/index.js';
import { Angle, formatAngle, Instant, Position } from '../../core/units/index.js';
import * as print from '../columns/print-value.js';
import { quillfeatherAt } from './passage.js';
import { simulatedNote } from './simulated-log.js';

const FROM = Instant.utc('2027-05-12 14:52:00 UTC');
const COUNT = 7;
const EVERY_S = 100;
const SCATTER_ARCMIN = 0.3;
/** What the watch is fast on UTC, and nobody on board knows. */
const WATCH_FAST_S = 74;
const FIRST_GUESS_DEG = 82;

/** Distances of the limbs of Sun and Moon by a watch that is fast: as CSV, with what is true. */
export interface SimulatedDistances {
  readonly csv: string;
  readonly planted: Readonly<Record<string, unknown>>;
}

/**
 * Seven distances between the near limbs of the Sun and the Moon, taken on passage; index error taken off.
 * @param seed any whole number @param preamble comment lines for the head of the file
 */
export function simulateLunarDistances(
  seed: number,
  preamble: readonly string[] = simulatedNote(seed),
): SimulatedDistances {
  const random = seededRandom(seed);
  const rows = Array.from({ length: COUNT }, (_, i) => {
    const utcMs = FROM.epochMs + (i * EVERY_S + random.below(25)) * 1000;
    const exact = limbDistance(Instant.fromEpochMs(utcMs)).arcminutes;
    const read = Math.round((exact + SCATTER_ARCMIN * random.normal()) * 10) / 10;
    return `${print.utc(utcMs + WATCH_FAST_S * 1000)},${formatAngle(read / 60)}`;
  });
  const head = [...preamble.map((line) => `# ${line}`), 'watch,distance'];
  return {
    csv: [...head, ...rows].join('\n') + '\n',
    planted: { watchFastS: WATCH_FAST_S, scatterArcmin: SCATTER_ARCMIN },
  };
}

/** The distance that clears to this instant: secant steps on the method itself. */
function limbDistance(instant: Instant): Angle {
  const { latDeg, lonDeg } = quillfeatherAt(instant.epochMs);
  const position = Position.degrees(latDeg, lonDeg);
  let distance = Angle.degrees(FIRST_GUESS_DEG);
  for (let i = 0; i < 8; i++) {
    const { value } = lunarDistance({
      body: 'Sun',
      moonLimb: 'near',
      watch: instant,
      distance,
      position,
    });
    const lateHours = value.instant.minus(instant).hours;
    distance = distance.minus(Angle.arcminutes(lateHours * value.rateArcminPerHour));
  }
  return distance;
}
