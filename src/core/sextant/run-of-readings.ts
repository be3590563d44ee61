import type { Reading } from './sight.js';

/** The readings of a short run lie on a line in time to within the observer's unsteadiness; three times that is a slip. */
const DOUBTFUL_SIGMAS = 3;

/**
 * The reading of a short run that lies farthest off the line through the others, if it lies too far off to be chance.
 * @param readings with their times, three or more; with fewer, or without times, there is nothing to compare
 * @param sigmaArcmin one standard deviation of a single reading
 * @returns its number, from 1, and how far off it lies, minutes of arc, high positive
 */
export function strayReading(
  readings: readonly Reading[],
  sigmaArcmin: number,
): { number: number; offArcmin: number } | undefined {
  const first = readings[0]?.instant;
  if (readings.length < 3 || !first) return undefined;
  const points = readings.flatMap((r) =>
    r.instant ? [{ t: r.instant.minus(first).seconds, y: r.angle.arcminutes }] : [],
  );
  if (points.length !== readings.length) return undefined;
  let worst: { number: number; offArcmin: number; ratio: number } | undefined;
  points.forEach((point, i) => {
    const { value, factor } = predicted(
      points.filter((_, j) => j !== i),
      point.t,
    );
    const offArcmin = point.y - value;
    const ratio = Math.abs(offArcmin) / (sigmaArcmin * factor);
    if (ratio > (worst?.ratio ?? DOUBTFUL_SIGMAS)) worst = { number: i + 1, offArcmin, ratio };
  });
  return worst && { number: worst.number, offArcmin: worst.offArcmin };
}

/** The line through points, carried to `t`, and the standard deviation of a new point about it in units of one point's. */
function predicted(points: readonly { t: number; y: number }[], t: number) {
  const n = points.length;
  const [mt, my] = [
    points.reduce((s, p) => s + p.t, 0) / n,
    points.reduce((s, p) => s + p.y, 0) / n,
  ];
  const stt = points.reduce((s, p) => s + (p.t - mt) ** 2, 0);
  const slope = stt === 0 ? 0 : points.reduce((s, p) => s + (p.t - mt) * (p.y - my), 0) / stt;
  const reach = stt === 0 ? 0 : (t - mt) ** 2 / stt;
  return { value: my + slope * (t - mt), factor: Math.sqrt(1 + 1 / n + reach) };
}
