import library from 'jstat';
import { OutOfRangeError } from '../../core/units/index.js';

const { jStat } = library;

/** @throws OutOfRangeError unless 0 < level < 1 */
function tail(level: number): number {
  if (!(level > 0 && level < 1))
    throw new OutOfRangeError(`a level is a probability such as 0.95, not ${String(level)}`);
  return (1 - level) / 2;
}

/** The t that |t| stays below with probability `level`. @param dof degrees of freedom, 1 or more */
export const studentT = (level: number, dof: number): number =>
  jStat.studentt.inv(1 - tail(level), dof);

/** The χ² below which, and above which, half of 1 − `level` lies. */
export function chiSquareRange(level: number, dof: number): [low: number, high: number] {
  const p = tail(level);
  return [jStat.chisquare.inv(p, dof), jStat.chisquare.inv(1 - p, dof)];
}

/** Probability that |t| is at least this large. */
export const studentTails = (t: number, dof: number): number =>
  2 * jStat.studentt.cdf(-Math.abs(t), dof);

/** Probability that a standard normal is at least this far from zero. */
export const normalTails = (z: number): number => 2 * jStat.normal.cdf(-Math.abs(z), 0, 1);
export const normalBelow = (z: number): number => jStat.normal.cdf(z, 0, 1);
export const normalQuantile = (p: number): number => jStat.normal.inv(p, 0, 1);
export const betaQuantile = (p: number, a: number, b: number): number => jStat.beta.inv(p, a, b);
export { tail };
