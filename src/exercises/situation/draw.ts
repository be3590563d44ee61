import { seededRandom, type Random } from '../../core/fix/index.js';
import { studentSeed } from '../seed/index.js';

const MOST_TRIES = 500;

/** Whose numbers are drawn, and with which method they are worked. */
export interface DrawOptions {
  /** The student's name; each has numbers of their own. */
  readonly student: string;
  /** Sets one class or year apart from another. */
  readonly course?: string;
}

/** The seed of a student in an exercise, and its random numbers. */
export function drawnBy(exercise: string, { student, course }: DrawOptions) {
  const seed = studentSeed(student, exercise, course);
  return { seed, random: seededRandom(seed) };
}

/**
 * Draws until a situation is sensible. @param draw returns nothing for one that is not
 * @throws RangeError after 500 tries, which says that the limits leave no room
 */
export function drawUntil<T>(random: Random, draw: (random: Random) => T | undefined): T {
  for (let i = 0; i < MOST_TRIES; i++) {
    const found = draw(random);
    if (found !== undefined) return found;
  }
  throw new RangeError(`no sensible situation in ${MOST_TRIES} draws: the limits leave no room`);
}

/** A list in random order; the list given is left as it is. */
export function shuffled<T>(random: Random, list: readonly T[]): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}
