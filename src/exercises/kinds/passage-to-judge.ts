import { dipKernel, sight, sightPlace } from '../../core/sextant/index.js';
import {
  Angle,
  formatBearing,
  formatCorrection,
  Length,
  type Instant,
} from '../../core/units/index.js';
import { Question, type ExpectedLine } from '../question/index.js';
import { formatIntercept } from '../question/distance-text.js';
import { drawnBy, drawSetting, drawUntil } from '../situation/index.js';
import { NEVER_ALONE, WORK_FROM_TABLES } from './cautions.js';
import { drawnFields, type ExerciseOptions } from './exercise-options.js';
import { drawRows, slipEffects, SLIPS, type PassagePage, type PassageRow } from './passage-rows.js';

/** A page of the sight book to be judged after the passage: which sight holds a slip, which, and each observer's bias. */
export function passageToJudge(options: ExerciseOptions): Question<PassagePage> {
  const id = 'passage-to-judge';
  const { seed, random } = drawnBy(id, options);
  const given = drawUntil(random, (r) => {
    const setting = drawSetting(r);
    const eyeM = Math.round(10 * (2 + 2.5 * r.uniform())) / 10;
    const error = Math.round(10 * (2.4 + 0.5 * r.uniform())) / 10;
    return drawRows(r, setting, {
      indexErrorArcmin: r.uniform() < 0.5 ? error : -error,
      dipArcmin: dipKernel(eyeM),
      semidiameterArcmin: sunSight(setting.day).semidiameter.arcminutes,
    });
  });
  return new Question<PassagePage>({
    id,
    title: 'A passage to judge',
    task: 'After the passage the sights of a few days were worked at the positions of the GPS track, all of the Sun’s lower limb. One of them holds a slip. Say which sight it is and which slip explains it. Then give each observer’s bias: the mean intercept of the sights without it.',
    given,
    printed: [
      [
        'Index error',
        `${Math.abs(given.indexErrorArcmin).toFixed(1)}′ ${given.indexErrorArcmin > 0 ? 'on' : 'off'} the arc`,
      ],
      ['Dip', formatCorrection(-given.dipArcmin)],
      ['Semi-diameter of the Sun', `${given.semidiameterArcmin.toFixed(1)}′`],
      ['Latitude', given.at.toString().split(',')[0] ?? ''],
    ],
    table: {
      caption: 'Sights at known positions',
      head: ['Sight', 'Observer', 'Time', 'Azimuth', 'Intercept'],
      rows: given.rows.map((row) => [
        String(row.number),
        row.observer,
        row.instant.toString(),
        formatBearing(row.azimuthDeg),
        formatIntercept(Length.nauticalMiles(row.interceptNm)),
      ]),
    },
    lines: LINES as never,
    ...drawnFields(seed, options, noticeOf(given.rows[0] as PassageRow)),
    cautions: [NEVER_ALONE, WORK_FROM_TABLES],
  });
}

const noticeOf = ({ instant }: Pick<PassageRow, 'instant'>) =>
  sight({ body: 'Sun', reading: Angle.degrees(30), time: instant });
const sunSight = (instant: Instant) => sightPlace(noticeOf({ instant }));

const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2
    ? (sorted[middle] ?? NaN)
    : ((sorted[middle - 1] ?? NaN) + (sorted[middle] ?? NaN)) / 2;
}

const ofObserver = ({ rows }: PassagePage, observer: string) =>
  rows.filter((r) => r.observer === observer);

/** The sight that stands farthest from the middle of its observer's. */
function wildest(page: PassagePage): PassageRow {
  const off = (row: PassageRow) =>
    Math.abs(row.interceptNm - median(ofObserver(page, row.observer).map((r) => r.interceptNm)));
  return [...page.rows].sort((a, b) => off(b) - off(a))[0] as PassageRow;
}

/** The slip whose effect comes nearest to what is left of a sight after its observer's bias. */
function likeliestSlip(page: PassagePage, number: string): string {
  const row = page.rows.find((r) => String(r.number) === number) ?? wildest(page);
  const others = ofObserver(page, row.observer).filter((r) => r !== row);
  const left = row.interceptNm - mean(others.map((r) => r.interceptNm));
  const effects = slipEffects(page, row);
  const miss = (slip: (typeof SLIPS)[number]) =>
    Math.min(...effects[slip].map((e) => Math.abs(e - left)));
  return [...SLIPS].sort((a, b) => miss(a) - miss(b))[0] as string;
}

const bias = (observer: 'A' | 'B'): ExpectedLine<PassagePage> => ({
  id: `bias${observer}`,
  title: `Bias of observer ${observer}`,
  quantity: 'intercept',
  formula:
    'the mean of that observer’s intercepts, away counted negative, without the sight that holds the slip',
  rule: (page, f) => biasOf(page, observer, f.word('suspect')),
  slips: (page, f) => [
    {
      name: 'the slip left in the mean',
      value: biasOf(page, observer, 'none'),
      sentence:
        'The sight with the slip is still in the mean: it moves it more than all the others together.',
    },
    {
      name: 'away not counted negative',
      value: Length.nauticalMiles(
        mean(kept(page, observer, f.word('suspect')).map((r) => Math.abs(r.interceptNm))),
      ),
      sentence: 'The sizes were averaged: an intercept away counts negative.',
    },
  ],
  tolerance: {
    size: 0.1,
    unit: 'nm',
    reason: 'a mean of figures to 0.1 nm',
    source: 'arithmetic of rounding, no source',
  },
});

const kept = (page: PassagePage, observer: string, suspect: string) =>
  ofObserver(page, observer).filter((row) => String(row.number) !== suspect);
const biasOf = (page: PassagePage, observer: string, suspect: string) =>
  Length.nauticalMiles(mean(kept(page, observer, suspect).map((row) => row.interceptNm)));

const LINES: readonly ExpectedLine<PassagePage>[] = [
  {
    id: 'suspect',
    title: 'The sight that holds the slip',
    quantity: 'choice',
    choices: ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10'],
    formula: 'the sight whose intercept stands farthest from the others of the same observer',
    rule: (page) => String(wildest(page).number),
    hint: 'Draw the intercepts of each observer side by side.',
  },
  {
    id: 'slip',
    title: 'The slip that explains it',
    quantity: 'choice',
    choices: SLIPS,
    formula: 'the slip that leaves the intercept where the others are',
    rule: (page, f) => likeliestSlip(page, f.word('suspect')),
    hint: 'How many minutes is it off, and which way? A limb is worth a diameter, a minute of time 15′ times cos Lat times sin Zn.',
    marks: 2,
  },
  bias('A'),
  bias('B'),
];
