import { seededRandom } from '../../core/fix/random.js';
import { Instant } from '../../core/units/index.js';
import { simulateReading } from './simulate-reading.js';
import { simulatedNote, written, type SimulatedLog } from './simulated-log.js';
import { deckReading } from './under-way.js';

/** Groups of readings: when the first is taken, how many, how many seconds apart. Transit is at 11:46 UTC. */
const GROUPS = [
  { from: '2027-05-09 11:02:00 UTC', count: 5, everyS: 45 },
  { from: '2027-05-09 11:34:00 UTC', count: 13, everyS: 120 },
  { from: '2027-05-09 12:28:00 UTC', count: 5, everyS: 45 },
] as const;
const OBSERVER = { name: 'A', biasArcmin: 0, scatterArcmin: 0.5 };
const INDEX_ERROR_ARCMIN = -1.4;
const DIP_ERROR_ARCMIN = 0.3;
const DR_OFF = { bearingDeg: 235, distanceNm: 6 };

/**
 * The round of readings about noon of 9 May on passage: five in the forenoon, thirteen across the meridian, five after it.
 * @param seed any whole number @param preamble comment lines for the head of the file
 */
export function simulateNoonRound(
  seed: number,
  preamble: readonly string[] = simulatedNote(seed),
): SimulatedLog {
  const random = seededRandom(seed);
  const times = GROUPS.flatMap(({ from, count, everyS }) =>
    Array.from(
      { length: count },
      (_, i) => Instant.utc(from).epochMs + (i * everyS + random.below(12)) * 1000,
    ),
  );
  const readings = times.map((utcMs, i) =>
    simulateReading(
      deckReading({
        round: '2027-05-09 noon',
        sight: String(i + 1),
        utcMs,
        body: 'Sun',
        limb: 'lower',
        observer: OBSERVER,
        indexErrorArcmin: INDEX_ERROR_ARCMIN,
        dipErrorArcmin: DIP_ERROR_ARCMIN,
        drOff: DR_OFF,
        temperatureC: 21,
      }),
      random,
    ),
  );
  return {
    ...written(readings, preamble),
    planted: {
      observerScatterArcmin: OBSERVER.scatterArcmin,
      indexErrorArcmin: INDEX_ERROR_ARCMIN,
      dipErrorArcmin: DIP_ERROR_ARCMIN,
      drOff: DR_OFF,
    },
  };
}
