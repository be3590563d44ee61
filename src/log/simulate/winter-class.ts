import { seededRandom } from '../../core/fix/random.js';
import { Instant } from '../../core/units/index.js';
import { simulateReading } from './simulate-reading.js';
import { simulatedNote, written, type SimulatedLog } from './simulated-log.js';
import type { ReadingTruth, SimulatedSlip } from './truth.js';

/** A garden in Walvis Bay, out of the wind. */
const GARDEN = { latDeg: -22.95, lonDeg: 14.5 };
const FROM = Instant.utc('2027-07-03 08:24:00 UTC');
const OBSERVERS = [
  { name: 'A', biasArcmin: 0.2, scatterArcmin: 0.25 },
  { name: 'B', biasArcmin: -0.3, scatterArcmin: 0.35 },
] as const;
const INDEX_ERROR_ARCMIN = -1.4;
/** The glass roof over the oil bends the light this much one way, and as much the other way when it is turned round. */
const ROOF_ARCMIN = 0.5;
const READINGS = 24;
/** Three readings of a limb, then three of the other; the observers change after six, the roof is turned after twelve. */
const EACH = 3;
const SLIPS: ReadonlyMap<number, SimulatedSlip> = new Map([[15, 'wrong limb']]);

/**
 * The winter class ashore: 24 readings of the Sun over a tray of oil under a glass roof, by two observers, both limbs by
 * turns, the roof turned round half-way.
 * @param seed any whole number @param preamble comment lines for the head of the file
 */
export function simulateWinterClass(
  seed: number,
  preamble: readonly string[] = simulatedNote(seed),
): SimulatedLog {
  const random = seededRandom(seed);
  let utcMs = FROM.epochMs;
  const readings = Array.from({ length: READINGS }, (_, i) => {
    utcMs += (i % EACH === 0 ? 110 : 55) * 1000 + random.below(20) * 1000;
    return simulateReading(truthOf(i, utcMs), random);
  });
  return {
    ...written(readings, preamble),
    planted: {
      observers: OBSERVERS,
      indexErrorArcmin: INDEX_ERROR_ARCMIN,
      roofErrorArcmin: ROOF_ARCMIN,
      slips: [...SLIPS].map(([i, slip]) => ({ reading: i + 1, utcMs: readings[i]?.notedMs, slip })),
    },
  };
}

function truthOf(i: number, utcMs: number): ReadingTruth {
  const turned = i >= READINGS / 2;
  const slip = SLIPS.get(i);
  return {
    round: '2027-07-03 class',
    sight: String(Math.floor(i / EACH) + 1),
    utcMs,
    body: 'Sun',
    limb: Math.floor(i / EACH) % 2 === 0 ? 'lower' : 'upper',
    ...GARDEN,
    observer: OBSERVERS[Math.floor(i / (2 * EACH)) % 2 === 0 ? 0 : 1],
    instrument: 'sextant 1',
    indexErrorArcmin: INDEX_ERROR_ARCMIN,
    arcErrorArcmin: turned ? -ROOF_ARCMIN : ROOF_ARCMIN,
    horizon: 'artificial',
    eyeHeightM: 1.6,
    dipErrorArcmin: 0,
    temperatureC: 14,
    pressureHpa: 1019,
    clockErrorS: 0,
    roughness: 1,
    ...(slip ? { slip } : {}),
    noted: {
      indexError: '1.4′ off the arc',
      positionKind: 'known',
      ...GARDEN,
      remarks: turned ? 'roof turned round' : 'roof as it stood',
    },
  };
}
