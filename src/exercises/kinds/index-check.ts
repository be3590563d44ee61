import { sightPlace, sight, type Sight } from '../../core/sextant/index.js';
import { Angle, formatAngle, type Instant } from '../../core/units/index.js';
import { Question, type ExpectedLine, type LineSlip } from '../question/index.js';
import { drawnBy, drawSetting, drawUntil, inReach, moments, seenFrom } from '../situation/index.js';
import { EYES, WORK_FROM_TABLES } from './cautions.js';
import { drawnFields, type ExerciseOptions } from './exercise-options.js';

/** The Sun's two images brought edge to edge on both sides of the zero. */
export interface IndexCheck {
  /** On the arc, and off the arc, both as sizes. */
  readonly on: Angle;
  readonly off: Angle;
  readonly instant: Instant;
}

/** A quarter of the sum should give the semi-diameter to about 0.2′, or the readings are taken again (common practice, no source). */
const AGREEMENT_ARCMIN = 0.2;
const VERDICTS = ['good', 'measure again'] as const;
const tenth = (arcmin: number) => Angle.arcminutes(Math.round(arcmin * 10) / 10);

/** Index error from the Sun's diameters on and off the arc, with the check by the semi-diameter. */
export function indexCheck(options: ExerciseOptions): Question<IndexCheck> {
  const id = 'index-check';
  const { seed, random } = drawnBy(id, options);
  const given = drawUntil(random, (r): IndexCheck | undefined => {
    const { position, day } = drawSetting(r);
    const hour = 12 - position.lonDeg / 15 - 4 + 8 * r.uniform();
    const [instant] = [...moments(day, hour, hour + 0.02, 1)];
    if (!instant || !inReach(seenFrom('Sun', instant, position).altDeg)) return undefined;
    const diameter = 2 * sunSemidiameter(instant).arcminutes;
    const error = (0.6 + 2.4 * r.uniform()) * (r.uniform() < 0.5 ? 1 : -1);
    // One set in three holds a misreading, which the semi-diameter betrays.
    const misread = r.uniform() < 1 / 3 ? 1.2 + 1.2 * r.uniform() : 0;
    return { on: tenth(diameter + error + misread), off: tenth(diameter - error), instant };
  });
  return new Question<IndexCheck>({
    id,
    title: 'The index error by the Sun’s diameters',
    task: 'Before the sights, the Sun’s two images were brought edge to edge on both sides of the zero. Find the index error and the index correction, and say by the semi-diameter whether the readings are good or have to be taken again.',
    given,
    printed: [
      ['Time', given.instant.toString()],
      ['Reading on the arc', formatAngle(given.on.degrees)],
      ['Reading off the arc', formatAngle(given.off.degrees)],
    ],
    lines: LINES as never,
    ...drawnFields(seed, options, noticeOf(given)),
    cautions: [EYES, WORK_FROM_TABLES],
  });
}

const noticeOf = ({ instant }: IndexCheck): Sight =>
  sight({ body: 'Sun', reading: Angle.degrees(30), time: instant });
const sunSemidiameter = (instant: Instant): Angle =>
  sightPlace(noticeOf({ on: Angle.zero, off: Angle.zero, instant })).semidiameter;

const half = (g: IndexCheck) => g.on.minus(g.off).times(0.5);

const LINES: readonly ExpectedLine<IndexCheck>[] = [
  {
    id: 'indexError',
    title: 'Index error',
    quantity: 'indexError',
    formula: 'half the difference of the two readings, on the side of the greater',
    rule: half,
    slips: (g) => [wholeDifference(g)],
    standard: 'indexError',
    hint: 'Both readings hold one whole diameter; what is left over is twice the error.',
  },
  {
    id: 'indexCorrection',
    title: 'Index correction',
    quantity: 'correction',
    formula: 'the index error with the other sign: off the arc is added, on the arc is taken away',
    rule: (_g, f) => f.angle('indexError').negated(),
    standard: 'indexError',
    hint: 'When it is off, put it on.',
  },
  {
    id: 'semidiameter',
    title: 'Semi-diameter found',
    quantity: 'arc',
    formula: 'a quarter of the sum of the two readings',
    rule: (g) => g.on.plus(g.off).times(0.25),
    slips: (g) => [diameter(g)],
  },
  {
    id: 'verdict',
    title: 'The readings are',
    quantity: 'choice',
    choices: VERDICTS,
    formula: 'good when the semi-diameter found is within 0.2′ of the one on the daily page',
    rule: (g, f) =>
      Math.abs(f.angle('semidiameter').minus(sunSemidiameter(g.instant)).arcminutes) <=
      AGREEMENT_ARCMIN
        ? VERDICTS[0]
        : VERDICTS[1],
    hint: 'Compare with the semi-diameter on the daily page.',
  },
];

const wholeDifference = (g: IndexCheck): LineSlip => ({
  name: 'not halved',
  value: g.on.minus(g.off),
  sentence: 'This is the whole difference of the readings: the index error is half of it.',
});
const diameter = (g: IndexCheck): LineSlip => ({
  name: 'half for a quarter',
  value: g.on.plus(g.off).times(0.5),
  sentence: 'This is half the sum, the diameter: the semi-diameter is a quarter of the sum.',
});
