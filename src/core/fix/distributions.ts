import { OutOfRangeError } from '../units/errors.js';

/** Lanczos coefficients, g = 7, n = 9 (P. Godfrey 2001; relative error below 1e-14 for x > 0). */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313,
  -176.61502916214059, 12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6,
  1.5056327351493116e-7,
];

/**
 * Natural logarithm of the gamma function, x > 0. Lanczos's approximation; held to scipy at 1e-9 by way of the quantiles.
 */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const y = x - 1;
  const sum = LANCZOS.reduce((s, c, k) => (k === 0 ? c : s + c / (y + k)), 0);
  const t = y + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (y + 0.5) * Math.log(t) - t + Math.log(sum);
}

/**
 * Regularised lower incomplete gamma P(a, x), a > 0, 0 to 1: series DLMF 8.11.4 below a + 1, continued fraction DLMF 8.9.2 above.
 */
export function gammaP(a: number, x: number): number {
  if (x <= 0) return 0;
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < 2000 && Math.abs(term) > Math.abs(sum) * 1e-16; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return front * sum;
  }
  const fraction = lentz(
    (n) => (n === 0 ? 1 : -n * (n - a)),
    (n) => x + 2 * n + 1 - a,
  );
  return 1 - front * fraction;
}

/**
 * Regularised incomplete beta I_x(a, b), a and b > 0, 0 to 1: continued fraction DLMF 8.17.22, mirrored where it converges faster.
 */
export function betaI(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaI(1 - x, b, a);
  const front = Math.exp(
    a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b),
  );
  const term = (n: number) => {
    if (n === 0) return 1;
    const m = Math.floor(n / 2);
    return n % 2 === 0
      ? (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
      : (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
  };
  return (front * lentz(term, () => 1)) / a;
}

/** Continued fraction a0/(b0 + a1/(b1 + …)), started from 0 as `tiny`, by the modified Lentz method (DLMF 3.10(iii)). */
function lentz(a: (n: number) => number, b: (n: number) => number): number {
  const tiny = 1e-300;
  let f = tiny;
  let c = tiny;
  let d = 0;
  for (let n = 0; n < 3000; n++) {
    d = b(n) + a(n) * d || tiny;
    c = b(n) + a(n) / c || tiny;
    d = 1 / d;
    const delta = c * d;
    f *= delta;
    if (n > 0 && Math.abs(delta - 1) < 1e-15) break;
  }
  return f;
}

/** Probability that χ² with `dof` degrees of freedom is at most x. */
export const chi2Cdf = (x: number, dof: number): number => gammaP(dof / 2, x / 2);
/** Probability that F with `d1`, `d2` degrees of freedom is at most x. */
export const fCdf = (x: number, d1: number, d2: number): number =>
  x <= 0 ? 0 : betaI((d1 * x) / (d1 * x + d2), d1 / 2, d2 / 2);
/** Standard normal distribution function. */
export const normalCdf = (z: number): number =>
  z < 0 ? 0.5 * (1 - gammaP(0.5, (z * z) / 2)) : 0.5 * (1 + gammaP(0.5, (z * z) / 2));

/**
 * χ² value not exceeded with probability `level`.
 * @param dof degrees of freedom, more than 0
 * @throws OutOfRangeError unless 0 < level < 1
 */
export function chi2Quantile(level: number, dof: number): number {
  if (dof === 2) return -2 * Math.log1p(-probability(level));
  return invert((x) => chi2Cdf(x, dof), probability(level));
}

/**
 * F value not exceeded with probability `level`; closed form for two degrees of freedom above.
 * @param d1 degrees of freedom above, more than 0
 * @param d2 those below, more than 0
 * @throws OutOfRangeError unless 0 < level < 1
 */
export function fQuantile(level: number, d1: number, d2: number): number {
  const p = probability(level);
  if (d1 === 2) return (d2 / 2) * ((1 - p) ** (-2 / d2) - 1);
  return invert((x) => fCdf(x, d1, d2), p);
}

/**
 * The z of which |N(0,1)| stays below with probability `level`: 1.96 for 0.95.
 * @throws OutOfRangeError unless 0 < level < 1
 */
export const normalTwoSided = (level: number): number => Math.sqrt(chi2Quantile(level, 1));
/**
 * The t of which |t| with `dof` degrees of freedom stays below with probability `level`: 2.78 for 0.95 and 4.
 * @throws OutOfRangeError unless 0 < level < 1
 */
export const studentTwoSided = (level: number, dof: number): number =>
  Math.sqrt(fQuantile(level, 1, dof));

/**
 * A probability that was given, unchanged.
 * @throws OutOfRangeError unless 0 < level < 1
 */
export function probability(level: number): number {
  if (!(level > 0 && level < 1))
    throw new OutOfRangeError(
      `a level is a probability between 0 and 1, such as 0.95, not ${String(level)}`,
    );
  return level;
}

/** Bisection on a doubling bracket: slow, sure, to the last digits. */
function invert(cdf: (x: number) => number, p: number): number {
  let high = 1;
  while (cdf(high) < p) high *= 2;
  let low = 0;
  for (let i = 0; i < 200 && high - low > 1e-14 * high; i++) {
    const mid = (low + high) / 2;
    if (cdf(mid) < p) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}
