import { fix, type Fix, type FixOptions } from '../../core/fix/index.js';
import { observationOf, type AltitudeObservation } from '../../core/line/index.js';
import { rhumbDestinationKernel } from '../../core/line/rhumb-kernel.js';
import { OutOfRangeError } from '../../core/units/index.js';
import type { CellValue } from '../columns/column.js';
import { byRoundAndSight, rowAt } from './rows.js';
import { toSight } from './to-sight.js';

type Columns = Record<string, ArrayLike<CellValue>>;

/** The sights of a round that are used, worked up to Ho, and the rows each came from. */
export interface RoundObservations {
  readonly name: string;
  readonly observations: readonly AltitudeObservation[];
  readonly rows: readonly (readonly number[])[];
}

/** A fix leaves residuals only with more lines than unknowns. */
const LEAST_SIGHTS = 3;

/** Rounds that can be fixed: from places not known, with three sights or more. */
export function fixableRounds(columns: Columns, rows: number): RoundObservations[] {
  const open = Array.from({ length: rows }, (_, i) => i).filter(
    (i) => columns['accepted']?.[i] === true && columns['positionKind']?.[i] !== 'known',
  );
  const rounds: RoundObservations[] = [];
  for (const [name, sights] of byRoundAndSight(columns, open)) {
    if (sights.size < LEAST_SIGHTS) continue;
    const groups = [...sights.values()];
    const observations = groups.map((list) =>
      observationOf(toSight(list.map((i) => rowAt(columns, i)))),
    );
    rounds.push({ name, observations, rows: groups });
  }
  return rounds;
}

/** The fix, or null where the sights cannot make one. */
export function fixOrNull(
  observations: readonly AltitudeObservation[],
  options: FixOptions = {},
): Fix | null {
  try {
    return fix(observations, options);
  } catch (error) {
    if (error instanceof OutOfRangeError) return null;
    throw error;
  }
}

/** Where the vessel was at each reading by the fix of its round; rows that no fix covers are not in it. */
export function roundPlaces(
  columns: Columns,
  rows: number,
): ReadonlyMap<number, { latDeg: number; lonDeg: number }> {
  const places = new Map<number, { latDeg: number; lonDeg: number }>();
  for (const round of fixableRounds(columns, rows)) {
    const first = fixOrNull(round.observations);
    // With the fix itself as DR, each line is laid from where its sight was taken.
    const found = first && fixOrNull(round.observations, { dr: first.position });
    if (!found || found.lines.length !== round.rows.length) continue;
    found.lines.forEach(({ line }, s) => {
      const { latDeg, lonDeg } = line.position;
      const at = round.observations[s]?.instant.epochMs ?? NaN;
      for (const i of round.rows[s] ?? []) places.set(i, carried(columns, i, at, latDeg, lonDeg));
    });
  }
  return places;
}

/** From the mean time of the sight to the time of one of its readings, by course and speed. */
function carried(columns: Columns, i: number, fromMs: number, latDeg: number, lonDeg: number) {
  const courseDeg = columns['courseDeg']?.[i];
  const speedKn = columns['speedKn']?.[i];
  const hours = ((columns['utcMs']?.[i] as number) - fromMs) / 3_600_000;
  if (typeof courseDeg !== 'number' || typeof speedKn !== 'number' || speedKn * hours === 0)
    return { latDeg, lonDeg };
  return rhumbDestinationKernel(latDeg, lonDeg, courseDeg, speedKn * hours * 1852);
}
