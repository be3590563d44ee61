import { stagesOf, type Sight } from '../../core/sextant/index.js';
import { Angle, Duration, formatAngle, type Position } from '../../core/units/index.js';
import { Question, type ExpectedLine, type LineSlip } from '../question/index.js';
import {
  drawDr,
  drawGear,
  drawnBy,
  drawSetting,
  drawTwilight,
  drawUntil,
  takeSight,
} from '../situation/index.js';
import { reading } from './altitude-lines.js';
import { NEVER_ALONE, WORK_FROM_TABLES } from './cautions.js';
import { drawnFields, mistakesOf, type ExerciseOptions } from './exercise-options.js';
import { fixLines } from './fix-lines.js';
import { printedGear } from './print-sight.js';
import { reductionLines } from './reduction-lines.js';

/** Three stars of one twilight, all reduced from one DR. */
export interface StarRound {
  readonly sights: readonly [Sight, Sight, Sight];
  readonly dr: Position;
}

const DR_ERROR_NM = 15;
/** Scatter of a practised observer at sea, one standard deviation: 15 Venus sights checked by GPS gave 0.88 nm (report of an individual observer). */
const SCATTER_ARCMIN = 0.5;
const MARKS = ['1', '2', '3'] as const;

/** A twilight round of three stars to a fix. The vessel lies hove-to, so no run comes in. */
export function starRound(options: ExerciseOptions): Question<StarRound> {
  const id = 'star-round';
  const { seed, random } = drawnBy(id, options);
  const given = drawUntil(random, (r): StarRound | undefined => {
    const { position, day } = drawSetting(r);
    const dusk = drawTwilight(r, day, position, 3);
    if (!dusk) return undefined;
    const dr = drawDr(r, position, DR_ERROR_NM);
    const gear = drawGear(r);
    const sights = dusk.bodies.map((body, i) => {
      const at = dusk.instant.plus(Duration.seconds(97 * i + r.below(40)));
      return takeSight({ body, dr, ...gear }, at, position, SCATTER_ARCMIN * r.normal());
    });
    return { sights: sights as never, dr };
  });
  const names = given.sights.map((s) => s.body);
  return new Question<StarRound>({
    id,
    title: 'A star round',
    task: 'Quillfeather is hove-to in the twilight. Reduce the three stars from the DR, plot their lines and take the fix.',
    given,
    printed: [['DR position', given.dr.toString()], ...printedGear(given.sights[0])],
    table: {
      caption: 'Sights',
      head: ['', 'Star', 'Time', 'Sextant reading'],
      rows: given.sights.map((s, i) => [
        MARKS[i] ?? '',
        s.body,
        s.instant.toString(),
        formatAngle(reading(s).degrees),
      ]),
    },
    lines: [
      ...MARKS.flatMap((mark, i) => starLines(mark, names[i] ?? mark, i)),
      ...fixLines<StarRound>(
        MARKS.map((mark, i) => ({ mark, name: names[i] ?? mark })),
        (g) => g.dr,
      ),
    ] as never,
    ...drawnFields(seed, options, given.sights[0]),
    mistakes: (g) =>
      g.sights.flatMap((sight, i) =>
        mistakesOf(sight, (s) => ({
          dr: s.dr ?? g.dr,
          sights: g.sights.map((other, k) => (k === i ? s : other)) as never,
        })),
      ),
    cautions: [NEVER_ALONE, WORK_FROM_TABLES],
  });
}

function starLines(mark: string, name: string, i: number): ExpectedLine<StarRound>[] {
  const sight = (g: StarRound): Sight => g.sights[i] as Sight;
  return [
    {
      id: `observed${mark}`,
      title: `${name}: observed altitude`,
      quantity: 'altitude',
      formula: 'the reading with index correction, dip and refraction applied',
      rule: (g) => Angle.degrees(stagesOf(sight(g)).stages.observedDeg),
      slips: (g) => starAltitudeSlips(sight(g)),
      standard: 'starAltitude',
      hint: 'A star has neither semi-diameter nor parallax.',
    },
    ...reductionLines<StarRound>({ mark, name, sight, from: (g) => g.dr }),
  ];
}

/** Each correction of a star forgotten or with the wrong sign. */
function starAltitudeSlips(s: Sight): LineSlip[] {
  const { stages } = stagesOf(s);
  const parts = [
    ['index correction', stages.indexArcmin],
    ['dip', stages.dipArcmin],
    ['refraction', stages.refractionArcmin],
  ] as const;
  return parts.flatMap(([name, arcmin]) => [
    {
      name: `sign of the ${name}`,
      value: Angle.degrees(stages.observedDeg - (2 * arcmin) / 60),
      sentence: `The ${name} was applied with the wrong sign.`,
    },
    {
      name: `${name} forgotten`,
      value: Angle.degrees(stages.observedDeg - arcmin / 60),
      sentence: `The ${name} was left out.`,
    },
  ]);
}
