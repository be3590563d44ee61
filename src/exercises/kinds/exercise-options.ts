import type { Sight } from '../../core/sextant/index.js';
import { sightMistakes } from '../slips/index.js';
import type { DrawOptions } from '../situation/index.js';
import type { Mistaken } from '../question/index.js';
import type { WorkingMethod } from '../tolerance/index.js';

/** Whose exercise it is and how it is to be worked. */
export interface ExerciseOptions extends DrawOptions {
  readonly method?: WorkingMethod;
}

/** The fields of a question that every drawn exercise has. */
export const drawnFields = (seed: number, { student, method }: ExerciseOptions, day: Sight) => ({
  seed,
  student,
  ...(method ? { method } : {}),
  day: day.instant.toIso().slice(0, 10),
});

/** Mistakes about one sight of several: the others stay as they are. */
export const mistakesOf = <G>(sight: Sight, put: (sight: Sight) => G): Mistaken<G>[] =>
  sightMistakes(sight).map((m) => ({ name: m.name, sentence: m.sentence, given: put(m.sight) }));
