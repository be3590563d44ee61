import { altitudeKernel } from '../line/altitude-kernel.js';
import type { AltitudeRow } from './altitude-model.js';
import type { FixParts } from './fix-result.js';
import { otherNames, type SlipHypothesis } from './slip-hypotheses.js';
import type { Scored } from './slip-report.js';
import type { Solution } from './solve.js';

/** A body that stands farther from the altitude measured, where the other lines meet, was not the one observed: no fix is tried with it. */
const REACH_ARCMIN = 180;
/** Lines that must be left to say where the vessel is. */
const LEAST_OTHERS = 2;

/** Whether a body at a place could have been the one measured. @param where the other lines meet */
export function isInReach(
  { latDeg, lonDeg }: Pick<Solution, 'latDeg' | 'lonDeg'>,
  observedDeg: number,
  { ghaDeg, decDeg }: Pick<SlipHypothesis, 'ghaDeg' | 'decDeg'>,
): boolean {
  const { altDeg } = altitudeKernel(latDeg, lonDeg, ghaDeg, decDeg);
  return Math.abs(observedDeg - altDeg) * 60 <= REACH_ARCMIN;
}

/**
 * One slip that is in several sights: whoever takes a star for another takes it so each time. For every body with more than
 * one sight, all of them under each other name.
 * @param solveWith a fix with these rows
 * @param evidence log probability of a fix
 */
export function misnamedThroughout(
  { rows, observations }: FixParts,
  solveWith: (rows: FixParts['rows']) => Solution,
  evidence: (s: Solution) => number,
): Scored[] {
  return [...new Set(observations.map((o) => o.body))].flatMap((body) => {
    const mine = observations.flatMap((o, row) =>
      o.body === body && o.sight ? [{ row, sight: o.sight, names: otherNames(o.sight) }] : [],
    );
    const [first] = mine;
    if (!first || mine.length < 2 || rows.length - mine.length < LEAST_OTHERS) return [];
    const without = solveWith(rows.filter((_, i) => mine.every(({ row }) => row !== i)));
    return first.names.flatMap((h, n): Scored[] => {
      const renamed = new Map(mine.map(({ row, names }) => [row, names[n] as SlipHypothesis]));
      const fits = ([row, there]: [number, SlipHypothesis]) =>
        isInReach(without, (rows[row] as AltitudeRow).observedDeg, there);
      if (![...renamed].every(fits)) return [];
      const solution = solveWith(
        rows.map((r, i) => {
          const there = renamed.get(i);
          return there ? { ...r, ghaDeg: there.ghaDeg, decDeg: there.decDeg } : r;
        }),
      );
      const where = mine.length === 2 ? 'in both sights' : `in all ${mine.length} sights`;
      return [
        {
          kind: h.kind,
          log: evidence(solution),
          h: { ...h, detail: `${h.detail}, ${where}` },
          sight: first.sight,
          share: 1 / rows.length,
        },
      ];
    });
  });
}
