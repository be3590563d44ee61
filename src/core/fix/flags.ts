import { label, type AltitudeObservation } from '../line/observation.js';
import type { AltitudeRow } from './altitude-model.js';
import { chi2Cdf, chi2Quantile } from './distributions.js';
import type { Solution } from './solve.js';

/** What is wrong or must be known about a fix. */
export type FixFlagCode =
  | 'duplicate'
  | 'single line'
  | 'parallel lines'
  | 'poor crossing'
  | 'contradiction'
  | 'lines do not meet'
  | 'two crossings'
  | 'zenith'
  | 'no run'
  | 'not converged'
  | 'scatter unknown'
  | 'bias unknown'
  | 'far from DR';

/** A flag: a code for programs, a sentence for people. */
export class FixFlag {
  constructor(
    readonly code: FixFlagCode,
    readonly text: string,
  ) {
    Object.freeze(this);
  }
  /** The sentence. */
  toString(): string {
    return this.text;
  }
}

/** Best crossing of any two lines, degrees (0 parallel, 90 square). */
export function bestCrossingDeg(s: Solution): number {
  const az = s.evaluation.altAz.map((a) => a.azDeg);
  let best = 0;
  for (let i = 0; i < az.length; i++)
    for (let j = i + 1; j < az.length; j++) {
      const d = Math.abs((az[i] as number) - (az[j] as number)) % 180;
      best = Math.max(best, Math.min(d, 180 - d));
    }
  return best;
}

const POOR_CROSSING_DEG = 25;
const ZENITH_DEG = 88;
const CONTRADICTION = 0.01;
/** Two circles just out of touch may be scatter; beyond the 99 % point of χ² with one degree of freedom they are not. */
const MISSING_CHI2 = chi2Quantile(1 - CONTRADICTION, 1);
/** A fix this far from the DR deserves a word. */
export const FAR_ARCMIN = 120;

/** Flags that follow from the geometry and from how well the altitudes agree. */
export function geometryFlags(
  observations: readonly AltitudeObservation[],
  rows: readonly AltitudeRow[],
  s: Solution,
  standardised: readonly (number | null)[],
  degreesOfFreedom: number,
  sigmaKnown: boolean,
): FixFlag[] {
  const flags: FixFlag[] = [];
  const add = (code: FixFlagCode, text: string) => flags.push(new FixFlag(code, text));
  const crossing = bestCrossingDeg(s);
  if (rows.length === 1)
    add(
      'single line',
      'One line does not make a fix: the vessel is somewhere on the band; the position shown is the point of it nearest the DR.',
    );
  else if (!s.unknowns)
    add(
      'parallel lines',
      `The lines run parallel (they cross at ${crossing.toFixed(1)}°): they fix one direction only. Take a body about 90° away in azimuth.`,
    );
  else if (crossing < POOR_CROSSING_DEG)
    add(
      'poor crossing',
      `The lines cross at no more than ${crossing.toFixed(0)}°: the fix is weak along them.`,
    );
  observations.forEach((o, i) => {
    const alt = s.evaluation.altAz[i]?.altDeg ?? 0;
    if (alt > ZENITH_DEG || o.observed.degrees > ZENITH_DEG)
      add(
        'zenith',
        `${label(o)} stands ${(90 - o.observed.degrees).toFixed(1)}° from the zenith: its azimuth swings quickly and its circle is small; a straight line does not stand for it.`,
      );
  });
  if (s.unknowns && rows.length >= 2 && sigmaKnown && degreesOfFreedom > 0) {
    const p = 1 - chi2Cdf(s.chi2, degreesOfFreedom);
    if (p < CONTRADICTION) add('contradiction', contradiction(observations, standardised, p));
  }
  if (rows.length === 2 && degreesOfFreedom === 0 && s.chi2 > MISSING_CHI2)
    add(
      'lines do not meet',
      `The two circles miss each other by ${missArcmin(s).toFixed(1)}′: one of the altitudes, times or bodies is wrong.`,
    );
  if (!s.converged)
    add('not converged', 'The solution did not settle: check the bodies, times and the DR.');
  return flags;
}

function contradiction(
  observations: readonly AltitudeObservation[],
  standardised: readonly (number | null)[],
  p: number,
): string {
  const worst = standardised.reduce<number>(
    (best, w, i) => (Math.abs(w ?? 0) > Math.abs(standardised[best] ?? 0) ? i : best),
    0,
  );
  const w = standardised[worst];
  const chance =
    p < 0.0001 ? 'fewer than one round in 10 000' : `${(p * 100).toFixed(2)} % of rounds`;
  const who =
    w === null || w === undefined
      ? ''
      : ` ${label(observations[worst] as AltitudeObservation)} lies ${Math.abs(w).toFixed(1)} standard deviations from what the others say.`;
  return `The sights contradict each other: ${chance} with these sigmas would disagree so much.${who}`;
}

const missArcmin = (s: Solution): number => s.residuals.reduce((sum, r) => sum + Math.abs(r), 0);
