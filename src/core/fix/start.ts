import { placeOfSight, type AltitudeRow } from './altitude-model.js';
import { solve, type PriorKernel, type Solution } from './solve.js';
import { circleCrossings, offset } from './sphere.js';

interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** Solutions nearer than this are the same place. */
const SAME_PLACE_ARCMIN = 1;
/** A sum of squares this much above the best still may be the right one: odds of 1000 to 1. */
export const RIVAL_CHI2 = 2 * Math.log(1000);

/** The solution taken and every other place that explains the altitudes about as well. */
export interface Candidates {
  readonly chosen: Solution;
  readonly rivals: readonly Solution[];
}

/**
 * Solves from the DR and from both crossings of the best-crossing pair of circles. With a prior the best sum of squares
 * is taken (it holds the prior's share); else the one nearest the DR among those that explain the altitudes about
 * as well; with no DR the best.
 */
export function candidates(
  rows: readonly AltitudeRow[],
  dr: Place | undefined,
  prior: PriorKernel | undefined,
  commonBias: boolean,
): Candidates {
  const starts = [...(dr ? [dr] : []), ...(rows.length > 1 ? crossingsOf(rows) : [])];
  const found: Solution[] = [];
  for (const start of starts) {
    const s = solve(rows, { start, prior, commonBias });
    if (!found.some((f) => near(f, s))) found.push(s);
  }
  const settled = found.some((s) => s.converged) ? found.filter((s) => s.converged) : found;
  const least = Math.min(...settled.map((s) => s.chi2));
  const able = settled.filter((s) => s.chi2 <= least + RIVAL_CHI2);
  const rank = prior || !dr ? (s: Solution) => s.chi2 : (s: Solution) => distance(s, dr);
  const [chosen, ...rivals] = [...able].sort((a, b) => rank(a) - rank(b));
  return { chosen: chosen as Solution, rivals };
}

const distance = (a: Place, b: Place): number => {
  const o = offset(a.latDeg, a.lonDeg, b.latDeg, b.lonDeg);
  return Math.hypot(o.northArcmin, o.eastArcmin);
};
const near = (a: Solution, b: Solution) => distance(a, b) < SAME_PLACE_ARCMIN;

/** The crossings of the two circles that cross best; one place between two circles that miss each other. */
function crossingsOf(rows: readonly AltitudeRow[]): Place[] {
  let best: { places: Place[]; sine: number } = { places: [], sine: -1 };
  for (let i = 0; i < rows.length; i++)
    for (let j = i + 1; j < rows.length; j++) {
      const [a, b] = [circleAtFix(rows[i] as AltitudeRow), circleAtFix(rows[j] as AltitudeRow)];
      const places = circleCrossings(a, b);
      const p = places[0];
      const sine = p ? crossingSine(p, a, b) : -0.5;
      if (sine > best.sine) best = { places: p ? places : [between(a, b)], sine };
    }
  return best.places;
}

function circleAtFix(row: AltitudeRow) {
  // Moving the centre of the circle back by the run is near enough for a start.
  const back = [...row.legs].reverse().map((l) => ({ ...l, distanceM: -l.distanceM }));
  const gp = { latDeg: row.decDeg, lonDeg: -row.ghaDeg };
  const moved = Math.abs(gp.latDeg) < 85 ? placeOfSight(gp.latDeg, gp.lonDeg, back) : gp;
  return { ...moved, zenithDeg: 90 - row.observedDeg };
}

function crossingSine(p: Place, a: Place, b: Place): number {
  const [u, v] = [a, b].map((c) => {
    const o = offset(p.latDeg, p.lonDeg, c.latDeg, c.lonDeg);
    return Math.atan2(o.eastArcmin, o.northArcmin);
  }) as [number, number];
  return Math.abs(Math.sin(u - v));
}

function between(a: Place & { zenithDeg: number }, b: Place): Place {
  const o = offset(a.latDeg, a.lonDeg, b.latDeg, b.lonDeg);
  const length = Math.hypot(o.northArcmin, o.eastArcmin) || 1;
  const scale = (a.zenithDeg * 60) / length;
  const lat = a.latDeg + (o.northArcmin * scale) / 60;
  return {
    latDeg: Math.max(-89, Math.min(89, lat)),
    lonDeg: a.lonDeg + (o.eastArcmin * scale) / 60,
  };
}
