import { altitudeKernel, altitudeRateKernel } from '../line/altitude-kernel.js';
import { ghaRateArcminPerS } from '../line/observation.js';
import { altitudeStagesKernel } from '../sextant/altitude-kernel.js';
import { errorDefaults } from '../sextant/error-budget.js';
import { altitudeInputOf, sightPlace } from '../sextant/sight-stages.js';
import type { Sight } from '../sextant/sight.js';
import type { SlipKind } from './slip-kinds.js';

/** The readings of one sight beside each other: what is left when the body's motion between them is taken out. */
export interface ReadingScatter {
  /** One standard deviation of a single reading's altitude, minutes of arc. */
  readonly sigmaArcmin: number;
  /** Altitude of each reading less the mean of all, at one common time, minutes of arc. */
  readonly offArcmin: readonly number[];
  /** Change of altitude, minutes of arc a second. */
  readonly rateArcminPerS: number;
  /** Change of the altitude for a change of the arc: 1, with an artificial horizon ½, in a back sight −1. */
  readonly scale: number;
}

/** What a sight would be without one of its readings, or with that reading corrected. */
export interface ReadingChange {
  /** Number of the reading, from 1. */
  readonly reading: number;
  /** To be added to the altitude of the sight, minutes of arc. */
  readonly altitudeArcmin: number;
  /** What the agreement of the readings says for it, as a difference of log probability. */
  readonly gain: number;
}

/** Slips that befall one reading: the arc, minutes, and the time of it, seconds. */
const ARC: readonly (readonly [SlipKind, number, string])[] = [
  ['whole degree', 60, '1°'],
  ['ten minutes', 10, '10′'],
  ['thirty minutes', 30, '30′'],
];
const MINUTE_S = 60;

/**
 * Sets the readings of a sight beside each other by the computed rate at a place.
 * @returns undefined for one reading, and where the readings have no times of their own
 */
export function readingScatter(
  sight: Sight,
  latDeg: number,
  lonDeg: number,
): ReadingScatter | undefined {
  const n = sight.readings.length;
  const times = sight.readings.flatMap((r) =>
    r.instant ? [r.instant.minus(sight.instant).seconds] : [],
  );
  if (n < 2 || times.length < n) return undefined;
  const place = sightPlace(sight);
  const input = altitudeInputOf(sight, place);
  const oneMinute = { ...input, readingDeg: input.readingDeg + 1 / 60 };
  const scale =
    (altitudeStagesKernel(oneMinute).observedDeg - altitudeStagesKernel(input).observedDeg) * 60;
  const { azDeg } = altitudeKernel(latDeg, lonDeg, place.gha.degrees, place.declination.degrees);
  const turning = altitudeRateKernel(latDeg, azDeg, ghaRateArcminPerS(sight.body));
  const rateArcminPerS = turning + sailing(sight, azDeg);
  const altitudes = sight.readings.map(
    (r, i) => r.angle.arcminutes * scale - rateArcminPerS * (times[i] as number),
  );
  const mean = altitudes.reduce((s, a) => s + a, 0) / n;
  return {
    sigmaArcmin: sigmaOfReading(sight, Math.abs(scale)),
    offArcmin: altitudes.map((a) => a - mean),
    rateArcminPerS,
    scale,
  };
}

/** What the vessel's own motion adds to the altitude, minutes of arc a second. */
function sailing({ course, speed }: Sight, azDeg: number): number {
  if (!course || !speed) return 0;
  return (speed.knots / 3600) * Math.cos(((course.degrees - azDeg) * Math.PI) / 180);
}

/** The observer's unsteadiness and the reading of the drum; never less than the total that was stated for the altitude. */
function sigmaOfReading({ errorBudget, horizon, sigma }: Sight, scale: number): number {
  const observer = errorBudget.observer?.arcminutes ?? errorDefaults.observer[horizon.kind];
  const reading = errorBudget.reading?.arcminutes ?? errorDefaults.reading;
  const least = errorDefaults.reading * scale;
  return Math.max(Math.hypot(observer, reading) * scale, sigma?.arcminutes ?? 0, least);
}

/** Every usual slip of one reading, undone. */
export function readingCorrections(
  scatter: ReadingScatter,
): (ReadingChange & { readonly kind: SlipKind; readonly detail: string })[] {
  const n = scatter.offArcmin.length;
  return scatter.offArcmin.flatMap((off, i) =>
    [1, -1].flatMap((sign) => {
      const undone = (kind: SlipKind, detail: string, altitudeArcmin: number) => ({
        kind,
        detail: `reading ${i + 1} of ${n}: ${detail}`,
        reading: i + 1,
        altitudeArcmin: altitudeArcmin / n,
        // The sum of squares about the mean before, less that after.
        gain:
          -(2 * altitudeArcmin * off + altitudeArcmin ** 2 * (1 - 1 / n)) /
          (2 * scatter.sigmaArcmin ** 2),
      });
      const more = sign > 0 ? 'more' : 'less';
      return [
        ...ARC.map(([kind, arcmin, text]) =>
          undone(kind, `${text} ${more}`, sign * arcmin * scatter.scale),
        ),
        undone(
          'minute of time',
          `1 minute ${sign > 0 ? 'later' : 'earlier'}`,
          -sign * MINUTE_S * scatter.rateArcminPerS,
        ),
      ];
    }),
  );
}

/**
 * Each reading left out, as wrong by an unknown amount that is anywhere within ± `rangeArcmin` alike. `varianceArcmin2`
 * is what the mean of the others is the less certain by.
 */
export function withoutReading(
  { offArcmin, sigmaArcmin }: ReadingScatter,
  rangeArcmin: number,
): (ReadingChange & { readonly varianceArcmin2: number })[] {
  const n = offArcmin.length;
  return offArcmin.map((off, i) => ({
    reading: i + 1,
    altitudeArcmin: -off / (n - 1),
    varianceArcmin2: sigmaArcmin ** 2 / (n * (n - 1)),
    // From the density of all readings to that of the others and a flat one, given the mean.
    gain:
      -Math.log(2 * rangeArcmin) +
      0.5 * Math.log((2 * Math.PI * sigmaArcmin ** 2 * n) / (n - 1)) +
      (off ** 2 * n) / (n - 1) / (2 * sigmaArcmin ** 2),
  }));
}
