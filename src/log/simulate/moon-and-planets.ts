import { seededRandom } from '../../core/fix/random.js';
import type { BodyName } from '../../core/sky/index.js';
import { Instant } from '../../core/units/index.js';
import type { LimbWord } from '../columns/log-words.js';
import { simulateReading } from './simulate-reading.js';
import { simulatedNote, written, type SimulatedLog } from './simulated-log.js';
import { deckReading } from './under-way.js';

interface Planned {
  readonly round: string;
  readonly body: BodyName;
  readonly limb: LimbWord;
  readonly from: string;
  readonly dipErrorArcmin: number;
}

const SIGHTS: readonly Planned[] = [
  {
    round: '2027-05-12 afternoon',
    body: 'Sun',
    limb: 'lower',
    from: '2027-05-12 15:41:00 UTC',
    dipErrorArcmin: 0.2,
  },
  {
    round: '2027-05-12 afternoon',
    body: 'Moon',
    limb: 'upper',
    from: '2027-05-12 15:47:30 UTC',
    dipErrorArcmin: 0.2,
  },
  {
    round: '2027-05-13 dawn',
    body: 'Venus',
    limb: 'centre',
    from: '2027-05-13 05:52:00 UTC',
    dipErrorArcmin: -0.3,
  },
  {
    round: '2027-05-13 dawn',
    body: 'Altair',
    limb: 'centre',
    from: '2027-05-13 05:56:30 UTC',
    dipErrorArcmin: -0.3,
  },
  {
    round: '2027-05-13 dawn',
    body: 'Antares',
    limb: 'centre',
    from: '2027-05-13 06:01:00 UTC',
    dipErrorArcmin: -0.3,
  },
];
const READINGS_EACH = 3;
const OBSERVER = { name: 'A', biasArcmin: 0, scatterArcmin: 0.5 };
const INDEX_ERROR_ARCMIN = -1.4;
const DR_OFF = { bearingDeg: 140, distanceNm: 7 };

/**
 * Two rounds on passage: the Sun and the Moon in one afternoon, Venus with two stars at the next dawn.
 * @param seed any whole number @param preamble comment lines for the head of the file
 */
export function simulateMoonAndPlanets(
  seed: number,
  preamble: readonly string[] = simulatedNote(seed),
): SimulatedLog {
  const random = seededRandom(seed);
  const readings = SIGHTS.flatMap(({ round, body, limb, from, dipErrorArcmin }, s) => {
    let utcMs = Instant.utc(from).epochMs;
    return Array.from({ length: READINGS_EACH }, () => {
      utcMs += (42 + random.below(18)) * 1000;
      return simulateReading(
        deckReading({
          round,
          sight: String(s + 1),
          utcMs,
          body,
          limb,
          observer: OBSERVER,
          indexErrorArcmin: INDEX_ERROR_ARCMIN,
          dipErrorArcmin,
          drOff: DR_OFF,
          temperatureC: 22,
        }),
        random,
      );
    });
  });
  return {
    ...written(readings, preamble),
    planted: {
      observerScatterArcmin: OBSERVER.scatterArcmin,
      indexErrorArcmin: INDEX_ERROR_ARCMIN,
      drOff: DR_OFF,
    },
  };
}
