import type { Random } from '../../core/fix/random.js';
import { altitudeKernel } from '../../core/line/altitude-kernel.js';
import { limbSign } from '../../core/sextant/limb.js';
import { sextantReadingFor } from '../../core/sextant/altitude-kernel.js';
import { OutOfRangeError } from '../../core/units/index.js';
import { phaseArcmin } from '../derived/altitudes.js';
import { bodyPlace } from '../derived/body-place.js';
import type { LimbWord } from '../columns/log-words.js';
import type { ReadingTruth, SimulatedReading } from './truth.js';

/** A vernier or drum is read to a tenth of a minute. */
const READ_TO_ARCMIN = 0.1;
const OTHER: Readonly<Record<LimbWord, LimbWord>> = {
  lower: 'upper',
  upper: 'lower',
  centre: 'centre',
};

/**
 * What the sextant reads and the log notes: the inverse of the whole reduction at the true place and time, plus bias,
 * scatter, dip and arc errors and any slip; rounded to 0.1′ and a second as a person notes it.
 * @throws OutOfRangeError when the body is below the horizon
 */
export function simulateReading(truth: ReadingTruth, random: Random): SimulatedReading {
  const scatterArcmin = truth.observer.scatterArcmin * truth.roughness * random.normal();
  const limb = truth.slip === 'wrong limb' ? OTHER[truth.limb] : truth.limb;
  const measured = exactReading(truth, limb);
  if (Number.isNaN(measured))
    throw new OutOfRangeError(
      `${truth.body} cannot be measured at ${new Date(truth.utcMs).toISOString()}: it is below the horizon`,
    );
  const scale = truth.horizon === 'artificial' ? 2 : 1;
  const errorArcmin =
    truth.observer.biasArcmin + scatterArcmin + truth.dipErrorArcmin + truth.arcErrorArcmin;
  const exact = measured + (scale * errorArcmin) / 60;
  const rounded = (Math.round((exact * 60) / READ_TO_ARCMIN) * READ_TO_ARCMIN) / 60;
  const noted = truth.utcMs + truth.clockErrorS * 1000;
  return {
    truth,
    readingDeg: misread(rounded, truth),
    scatterArcmin,
    notedMs: Math.round(noted / 1000) * 1000 + (truth.slip === 'minute of time' ? 60_000 : 0),
  };
}

/** What a perfect observer reads with this sextant. */
function exactReading(truth: ReadingTruth, limb: LimbWord): number {
  const place = bodyPlace(truth.body, truth.utcMs);
  const { altDeg, azDeg } = altitudeKernel(truth.latDeg, truth.lonDeg, place.ghaDeg, place.decDeg);
  return sextantReadingFor(altDeg, {
    readingDeg: NaN,
    indexErrorArcmin: truth.indexErrorArcmin,
    instrumentArcmin: 0,
    horizon: truth.horizon,
    eyeHeightM: truth.eyeHeightM,
    distanceM: truth.horizonDistanceM ?? NaN,
    temperatureC: truth.temperatureC,
    pressureHpa: truth.pressureHpa,
    refractionModel: 'formula above 10°',
    limb: limbSign(limb),
    sdArcmin: place.sdArcmin,
    hpArcmin: place.hpArcmin,
    moon: truth.body === 'Moon',
    latDeg: truth.latDeg,
    azimuthDeg: azDeg,
    phaseArcmin: phaseArcmin(truth.body, place, truth.latDeg, truth.lonDeg),
  });
}

/** The reading as a slip makes it. */
function misread(deg: number, { slip }: ReadingTruth): number {
  if (slip === 'ten minutes') return deg + 10 / 60;
  if (slip === 'whole degree') return deg - 1;
  return deg;
}
