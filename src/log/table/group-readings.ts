import type { CellValue } from '../columns/column.js';
import { roundName } from './round-name.js';

type Columns = Record<string, ArrayLike<CellValue>>;

/** Readings further apart than this begin a new round. */
export const ROUND_GAP_MS = 60 * 60_000;
/** Readings of one sight follow each other within this, and are this many at most. */
export const SIGHT_GAP_MS = 90_000;
export const SIGHT_MOST = 3;

/**
 * Names rounds and sights where the file does not: a round ends at a gap of an hour; a sight is up to three
 * readings of one body and limb by one observer with one sextant, each within 90 s of the last. Names that the
 * file gives are never changed. Returns the two columns and a note for each rule that was needed.
 */
export function groupReadings(columns: Columns): {
  round: CellValue[];
  sight: CellValue[];
  notes: string[];
} {
  const time = columns['utcMs'] as ArrayLike<number>;
  const order = Array.from({ length: time.length }, (_, i) => i);
  order.sort((a, b) => (time[a] ?? 0) - (time[b] ?? 0) || a - b);
  const round = Array.from(columns['round'] ?? []);
  const sight = Array.from(columns['sight'] ?? []);
  const notes: string[] = [];
  const rounds = nameRounds(columns, order, round);
  if (rounds > 0)
    notes.push(
      `${counted(rounds, 'round')} named by rule: a new round begins after an hour without a reading.`,
    );
  const sights = nameSights(columns, order, round, sight);
  if (sights > 0)
    notes.push(
      `${counted(sights, 'sight')} formed by rule: up to ${SIGHT_MOST} readings of one body and limb, each within ${SIGHT_GAP_MS / 1000} s of the last.`,
    );
  return { round, sight, notes };
}

/** `1 round was`, `3 rounds were`. */
const counted = (n: number, what: string) => `${n} ${what}${n === 1 ? ' was' : 's were'}`;

function nameRounds(columns: Columns, order: readonly number[], round: CellValue[]): number {
  const open = order.filter((i) => round[i] === null);
  const time = columns['utcMs'] as ArrayLike<number>;
  const taken = new Set(round.filter((r) => r !== null));
  let made = 0;
  for (let from = 0; from < open.length;) {
    let to = from + 1;
    while (to < open.length && gap(time, open[to - 1], open[to]) <= ROUND_GAP_MS) to++;
    const rows = open.slice(from, to);
    const base = roundName(columns, rows);
    let name = base;
    for (let n = 2; taken.has(name); n++) name = `${base} ${n}`;
    taken.add(name);
    for (const i of rows) round[i] = name;
    made += 1;
    from = to;
  }
  return made;
}

const gap = (time: ArrayLike<number>, a: number | undefined, b: number | undefined) =>
  (time[b ?? 0] ?? 0) - (time[a ?? 0] ?? 0);

function nameSights(
  columns: Columns,
  order: readonly number[],
  round: readonly CellValue[],
  sight: CellValue[],
): number {
  const time = columns['utcMs'] as ArrayLike<number>;
  const last = new Map<string, { row: number; name: string; count: number }>();
  const taken = new Map<CellValue, Set<CellValue>>();
  order.forEach((i) => {
    if (sight[i] === null) return;
    const names = taken.get(round[i] ?? null) ?? new Set();
    taken.set(round[i] ?? null, names.add(sight[i] ?? null));
  });
  const numbers = new Map<CellValue, number>();
  let made = 0;
  for (const i of order) {
    if (sight[i] !== null) continue;
    const key = ['body', 'limb', 'observer', 'instrument', 'horizon', 'round']
      .map((k) => String(k === 'round' ? round[i] : columns[k]?.[i]))
      .join('|');
    const open = last.get(key);
    if (open && open.count < SIGHT_MOST && gap(time, open.row, i) <= SIGHT_GAP_MS) {
      open.row = i;
      open.count += 1;
      sight[i] = open.name;
      continue;
    }
    const within = round[i] ?? null;
    let n = (numbers.get(within) ?? 0) + 1;
    while (taken.get(within)?.has(String(n))) n += 1;
    numbers.set(within, n);
    sight[i] = String(n);
    last.set(key, { row: i, name: String(n), count: 1 });
    made += 1;
  }
  return made;
}
