import { seededRandom } from '../../core/fix/random.js';
import { Instant } from '../../core/units/index.js';
import { simulateReading } from './simulate-reading.js';
import { simulatedNote, written, type SimulatedLog } from './simulated-log.js';
import type { ReadingTruth, SimulatedReading, SimulatedSlip } from './truth.js';

/** A beach north of Walvis Bay, looking out over the sea to the west. */
const BEACH = { latDeg: -(22 + 49.5 / 60), lonDeg: 14 + 32.2 / 60 };
const FROM = Instant.utc('2027-05-03 12:40:00 UTC');
const READINGS = 40;
/** Observer A reads 0.9′ too high: half of the readings at the water's edge, half from a dune. */
const OBSERVER = { name: 'A', biasArcmin: 0.9, scatterArcmin: 0.55 };
const INDEX_ERROR_ARCMIN = -1.4;
const EDGE_M = 2.1;
const DUNE_M = 7.4;
/** Reading number (from 0) and its slip. */
const SLIPS: ReadonlyMap<number, SimulatedSlip> = new Map([
  [8, 'whole degree'],
  [21, 'minute of time'],
  [33, 'wrong limb'],
]);

/**
 * The practice afternoon before the yawl Quillfeather sails: 40 readings of the Sun over the sea from a known place.
 * @param seed any whole number @param preamble comment lines for the head of the file
 */
export function simulatePracticeAfternoon(
  seed: number,
  preamble: readonly string[] = simulatedNote(seed),
): SimulatedLog {
  const random = seededRandom(seed);
  const readings: SimulatedReading[] = [];
  let utcMs = FROM.epochMs;
  for (let i = 0; i < READINGS; i++) {
    const sight = sightOf(i);
    const first = i === 0 || sightOf(i - 1) !== sight;
    utcMs += first ? 165_000 + random.below(50) * 1000 : 38_000 + random.below(22) * 1000;
    readings.push(simulateReading(truthOf(i, sight, utcMs), random));
  }
  return {
    ...written(readings, preamble),
    planted: {
      observerBiasArcmin: OBSERVER.biasArcmin,
      observerScatterArcmin: OBSERVER.scatterArcmin,
      indexErrorArcmin: INDEX_ERROR_ARCMIN,
      dipErrorArcmin: 0,
      clockErrorS: 0,
      slips: [...SLIPS].map(([i, slip]) => ({ reading: i + 1, utcMs: readings[i]?.notedMs, slip })),
    },
  };
}

/** Sights of three and two readings by turns. */
function sightOf(i: number): number {
  return Math.floor(i / 5) * 2 + (i % 5 < 3 ? 1 : 2);
}

function truthOf(i: number, sight: number, utcMs: number): ReadingTruth {
  const dune = i >= READINGS / 2;
  const slip = SLIPS.get(i);
  return {
    round: '2027-05-03 practice',
    sight: String(sight),
    utcMs: Math.round(utcMs / 1000) * 1000,
    body: 'Sun',
    limb: 'lower',
    ...BEACH,
    observer: OBSERVER,
    instrument: 'sextant 1',
    indexErrorArcmin: INDEX_ERROR_ARCMIN,
    arcErrorArcmin: 0,
    horizon: 'natural',
    eyeHeightM: dune ? DUNE_M : EDGE_M,
    dipErrorArcmin: 0,
    temperatureC: 19,
    pressureHpa: 1016,
    clockErrorS: 0,
    roughness: 1,
    ...(slip ? { slip } : {}),
    noted: {
      indexError: '1.4′ off the arc',
      positionKind: 'known',
      ...BEACH,
      ...(i === 0 ? { remarks: "at the water's edge" } : {}),
      ...(i === READINGS / 2 ? { remarks: 'from the dune' } : {}),
    },
  };
}
