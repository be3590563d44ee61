import type { Length } from '../units/scalar.js';

/**
 * `2.3 nm toward` or `0.8 nm away`.
 * @param intercept toward the body positive
 */
export function interceptText(intercept: Length): string {
  const nm = intercept.nauticalMiles;
  return `${Math.abs(nm).toFixed(1)} nm ${nm < 0 ? 'away' : 'toward'}`;
}

/** Longer than a DR is usually out by, and long enough for a straight line to leave the circle; common practice, no source. */
const LONG_INTERCEPT_NM = 30;

/** A flag for an intercept longer than a position line and a DR are good for. @internal */
export function longInterceptFlags(intercept: Length): string[] {
  if (Math.abs(intercept.nauticalMiles) <= LONG_INTERCEPT_NM) return [];
  return [
    `An intercept of ${interceptText(intercept)} is longer than a DR is usually out by: look for a slip (findSlip tries the usual ones). If the DR is poor, reduce again from a position on the line.`,
  ];
}
