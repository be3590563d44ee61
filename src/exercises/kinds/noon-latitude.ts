import { sightPlace, type Sight } from '../../core/sextant/index.js';
import { Angle } from '../../core/units/index.js';
import { Question, type ExpectedLine, type LineSlip } from '../question/index.js';
import {
  drawDr,
  drawGear,
  drawnBy,
  drawSetting,
  drawUntil,
  meridianPassage,
  seenFrom,
  inReach,
  takeSight,
} from '../situation/index.js';
import { apparentLines, bodyLines } from './altitude-lines.js';
import { EYES, WORK_FROM_TABLES } from './cautions.js';
import { drawnFields, mistakesOf, type ExerciseOptions } from './exercise-options.js';
import { printedSight } from './print-sight.js';

/** The Sun on the meridian, and which way it bears. */
export interface NoonSight {
  readonly sight: Sight;
  readonly bears: 'north' | 'south';
}

const DR_ERROR_NM = 20;

/** Latitude by the Sun's meridian altitude, from reading to latitude. The vessel lies stopped, so the maximum is the meridian altitude. */
export function noonLatitude(options: ExerciseOptions): Question<NoonSight> {
  const id = 'noon-latitude';
  const { seed, random } = drawnBy(id, options);
  const given = drawUntil(random, (r): NoonSight | undefined => {
    const { position, day } = drawSetting(r);
    const instant = meridianPassage(day, position);
    const { altDeg, azDeg } = seenFrom('Sun', instant, position);
    if (!inReach(altDeg)) return undefined;
    const dr = drawDr(r, position, DR_ERROR_NM);
    const limb = r.uniform() < 0.75 ? 'lower' : 'upper';
    const bears = Math.cos((azDeg * Math.PI) / 180) > 0 ? 'north' : 'south';
    return {
      sight: takeSight({ body: 'Sun', limb, dr, ...drawGear(r) }, instant, position),
      bears,
    };
  });
  return new Question<NoonSight>({
    id,
    title: 'Latitude at noon',
    task: 'Quillfeather lies stopped. The greatest altitude of the Sun was read at meridian passage. Work it to the observed altitude and find the latitude.',
    given,
    printed: [...printedSight(given.sight), ['The Sun bears', given.bears]],
    lines: [
      ...apparentLines<NoonSight>((g) => g.sight),
      ...bodyLines<NoonSight>((g) => g.sight, 'noonAltitude'),
      ...latitudeLines,
    ] as never,
    ...drawnFields(seed, options, given.sight),
    mistakes: (g) => mistakesOf(g.sight, (sight) => ({ ...g, sight })),
    cautions: [EYES, WORK_FROM_TABLES],
  });
}

/** North positive: the zenith lies north of a body that bears south. */
const zenithSide = ({ bears }: NoonSight): 1 | -1 => (bears === 'south' ? 1 : -1);

const latitudeLines: readonly ExpectedLine<NoonSight>[] = [
  {
    id: 'declination',
    title: 'Declination',
    quantity: 'declination',
    formula: 'from the daily page for the hour, with its name',
    rule: (g) => sightPlace(g.sight).declination,
  },
  {
    id: 'zenithDistance',
    title: 'Zenith distance',
    quantity: 'altitude',
    formula: 'ninety degrees less the observed altitude',
    rule: (_g, f) => Angle.degrees(90).minus(f.angle('observed')),
    slips: (_g, f) => [borrowedHundred(f.angle('observed'))],
    hint: 'Write 90° as 89°60.0′ before you subtract.',
  },
  {
    id: 'latitude',
    title: 'Latitude',
    quantity: 'latitude',
    formula:
      'zenith distance and declination: added when both have the same name, else the greater less the smaller',
    rule: (g, f) => f.angle('declination').plus(f.angle('zenithDistance').times(zenithSide(g))),
    slips: (g, f) => [
      zenithNamed(f.angle('declination'), f.angle('zenithDistance').times(zenithSide(g))),
      declinationNamed(f.angle('declination'), f.angle('zenithDistance').times(zenithSide(g))),
    ],
    standard: 'noonAltitude',
    marks: 2,
    hint: 'Name the zenith distance opposite to the bearing of the Sun.',
  },
];

const borrowedHundred = (observed: Angle): LineSlip => ({
  name: 'sixty and a hundred',
  value: Angle.degrees(90 + 40 / 60).minus(observed),
  sentence: 'Ninety degrees were written as 89°100′: a degree has sixty minutes.',
});
const zenithNamed = (declination: Angle, zenith: Angle): LineSlip => ({
  name: 'name of the zenith distance',
  value: declination.minus(zenith),
  sentence:
    'The zenith distance was named the wrong way: it is named opposite to the bearing of the body.',
});
const declinationNamed = (declination: Angle, zenith: Angle): LineSlip => ({
  name: 'same and contrary name',
  value: zenith.minus(declination),
  sentence:
    'The declination was applied the wrong way: add it to a zenith distance of the same name, subtract it from one of the other name.',
});
