const RADIANS_PER_DEGREE = Math.PI / 180;

/** Sine, cosine and tangent of degrees; arc functions into degrees. Kernels only. */
export const sinDeg = (deg: number): number => Math.sin(deg * RADIANS_PER_DEGREE);
export const cosDeg = (deg: number): number => Math.cos(deg * RADIANS_PER_DEGREE);
export const tanDeg = (deg: number): number => Math.tan(deg * RADIANS_PER_DEGREE);
/** @param x clamped to ±1, the one place where rounding above 1 is taken off. */
export const asinDeg = (x: number): number => Math.asin(clampUnit(x)) / RADIANS_PER_DEGREE;
/** @param x clamped to ±1. */
export const acosDeg = (x: number): number => Math.acos(clampUnit(x)) / RADIANS_PER_DEGREE;
export const atan2Deg = (y: number, x: number): number => Math.atan2(y, x) / RADIANS_PER_DEGREE;
export const radians = (deg: number): number => deg * RADIANS_PER_DEGREE;
export const degrees = (rad: number): number => rad / RADIANS_PER_DEGREE;

/** The same direction in 0 (included) to 360 (excluded). */
export function wrap360(deg: number): number {
  const wrapped = deg - 360 * Math.floor(deg / 360);
  return wrapped >= 360 ? 0 : wrapped;
}

/** The same direction in −180 (excluded) to 180 (included). */
export function wrap180(deg: number): number {
  const wrapped = wrap360(deg);
  return wrapped > 180 ? wrapped - 360 : wrapped;
}

/** hav x = (1 − cos x)/2 = sin²(x/2). */
export function havDeg(deg: number): number {
  const s = sinDeg(deg / 2);
  return s * s;
}

/** The angle in 0–180 whose haversine is `h`, clamped to 0–1. */
export function arcHavDeg(h: number): number {
  return 2 * asinDeg(Math.sqrt(Math.min(1, Math.max(0, h))));
}

function clampUnit(x: number): number {
  return x > 1 ? 1 : x < -1 ? -1 : x;
}
