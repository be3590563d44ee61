import { Position } from '../units/position.js';
import type { AltitudeRow } from './altitude-model.js';
import { solve } from './solve.js';
import { offset } from './sphere.js';

/** Lines that cross at less than this give no corner. */
const LEAST_CROSSING = Math.sin((10 * Math.PI) / 180);

/**
 * The figure that the lines leave, all carried to the time of the fix: for three lines the triangle of their crossings;
 * for more, the outermost crossings in order round the figure. Null when fewer than three lines or when they hardly cross.
 */
export function cockedHatOf(
  rows: readonly AltitudeRow[],
  azimuthsDeg: readonly number[],
  near: { latDeg: number; lonDeg: number },
): Position[] | null {
  if (rows.length < 3) return null;
  const corners: { north: number; east: number; place: Position }[] = [];
  for (let i = 0; i < rows.length; i++)
    for (let j = i + 1; j < rows.length; j++) {
      const angle = (((azimuthsDeg[i] as number) - (azimuthsDeg[j] as number)) * Math.PI) / 180;
      if (Math.abs(Math.sin(angle)) < LEAST_CROSSING) continue;
      const pair = [rows[i] as AltitudeRow, rows[j] as AltitudeRow].map(alone);
      const s = solve(pair, { start: near, commonBias: false });
      if (!s.converged || s.chi2 > 1e-6) continue;
      const o = offset(near.latDeg, near.lonDeg, s.latDeg, s.lonDeg);
      corners.push({
        north: o.northArcmin,
        east: o.eastArcmin,
        place: Position.degrees(s.latDeg, s.lonDeg),
      });
    }
  if (corners.length < 3) return null;
  return hull(corners).map((c) => c.place);
}

const alone = (row: AltitudeRow): AltitudeRow => ({
  ...row,
  ownSigmaArcmin: 1,
  shared: [],
  watchSigmaS: 0,
  runErrors: [],
});

/** Convex hull, counter-clockwise on the chart (A. M. Andrew, Inf. Process. Lett. 9(5), 1979). */
function hull<P extends { north: number; east: number }>(points: readonly P[]): P[] {
  const sorted = [...points].sort((a, b) => a.east - b.east || a.north - b.north);
  const turn = (o: P, a: P, b: P) =>
    (a.east - o.east) * (b.north - o.north) - (a.north - o.north) * (b.east - o.east);
  const half = (list: readonly P[]) => {
    const out: P[] = [];
    for (const p of list) {
      while (out.length > 1 && turn(out.at(-2) as P, out.at(-1) as P, p) <= 0) out.pop();
      out.push(p);
    }
    return out.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}
