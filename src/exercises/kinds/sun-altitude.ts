import type { BodyName } from '../../core/sky/index.js';
import type { Sight } from '../../core/sextant/index.js';
import { Question } from '../question/index.js';
import {
  drawDr,
  drawGear,
  drawnBy,
  drawSetting,
  drawUntil,
  inReach,
  moments,
  seenFrom,
  takeSight,
} from '../situation/index.js';
import { apparentLines, bodyLines } from './altitude-lines.js';
import { EYES, WORK_FROM_TABLES } from './cautions.js';
import { drawnFields, mistakesOf, type ExerciseOptions } from './exercise-options.js';
import { printedSight } from './print-sight.js';

/** What is given in an exercise on one sight. */
export interface OneSight {
  readonly sight: Sight;
}

const DR_ERROR_NM = 15;

/** A Sun sight in the morning or afternoon on the passage, from reading to observed altitude. */
export function sunAltitude(options: ExerciseOptions): Question<OneSight> {
  const id = 'sun-altitude';
  const { seed, random } = drawnBy(id, options);
  const given = drawUntil(random, (r) => {
    const { position, day } = drawSetting(r);
    const limb = r.uniform() < 0.7 ? 'lower' : 'upper';
    const noon = 12 - position.lonDeg / 15;
    const hour = noon - 4.5 + 9 * r.uniform();
    const [instant] = [...moments(day, hour, hour + 0.02, 1, r.below(60))];
    if (!instant || !inReach(seenFrom('Sun', instant, position).altDeg)) return undefined;
    const dr = drawDr(r, position, DR_ERROR_NM);
    return {
      sight: takeSight({ body: 'Sun' as BodyName, limb, dr, ...drawGear(r) }, instant, position),
    };
  });
  return new Question<OneSight>({
    id,
    title: 'From the sextant to the observed altitude',
    task: 'On board Quillfeather the Sun was brought down to the sea horizon. Work the reading to the observed altitude, one correction on each line, with its sign.',
    given,
    printed: printedSight(given.sight),
    lines: [
      ...apparentLines<OneSight>((g) => g.sight),
      ...bodyLines<OneSight>((g) => g.sight, 'sunAltitude'),
    ] as never,
    ...drawnFields(seed, options, given.sight),
    mistakes: (g) => mistakesOf(g.sight, (sight) => ({ sight })),
    cautions: [EYES, WORK_FROM_TABLES],
  });
}
