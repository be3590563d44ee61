import { rhumbBetweenKernel, rhumbDestinationKernel } from '../../core/line/rhumb-kernel.js';

export interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** One piece of a voyage, sailed on a rhumb line at even speed; at anchor where both ends are one. */
export interface Leg {
  readonly from: Place;
  readonly to: Place;
  readonly fromMs: number;
  readonly toMs: number;
}

/** Where the vessel is, and how she moves. */
export interface Motion extends Place {
  readonly courseDeg: number;
  readonly speedKn: number;
}

/** A swing about the straight course, in nautical miles, so that the track is not a ruled line. */
const SWING_NM = 1.5;
const SWING_HOURS = 31;

/** Position, course and speed at a time; the ends hold beyond the voyage. */
export function motionAt(legs: readonly Leg[], utcMs: number): Motion {
  const leg = legs.find((l) => utcMs < l.toMs) ?? (legs.at(-1) as Leg);
  const part = Math.min(1, Math.max(0, (utcMs - leg.fromMs) / (leg.toMs - leg.fromMs)));
  const line = rhumbBetweenKernel(leg.from.latDeg, leg.from.lonDeg, leg.to.latDeg, leg.to.lonDeg);
  if (line.distanceM < 1) return { ...leg.from, courseDeg: 0, speedKn: 0 };
  const on = rhumbDestinationKernel(
    leg.from.latDeg,
    leg.from.lonDeg,
    line.courseDeg,
    line.distanceM * part,
  );
  const hours = (leg.toMs - leg.fromMs) / 3_600_000;
  const swings = Math.max(1, Math.round(hours / SWING_HOURS));
  const offNm = SWING_NM * Math.sin(2 * Math.PI * swings * part);
  const place =
    Math.abs(offNm) < 1e-9
      ? on
      : rhumbDestinationKernel(on.latDeg, on.lonDeg, line.courseDeg + 90, offNm * 1852);
  const speedKn = line.distanceM / 1852 / hours;
  const crossKn =
    ((SWING_NM * 2 * Math.PI * swings) / hours) * Math.cos(2 * Math.PI * swings * part);
  return {
    ...place,
    courseDeg: line.courseDeg + (Math.atan2(crossKn, speedKn) * 180) / Math.PI,
    speedKn: Math.hypot(speedKn, crossKn),
  };
}
