import { rhumbDestination } from '../../core/line/index.js';
import { stagesOf, type Sight } from '../../core/sextant/index.js';
import type { Duration } from '../../core/units/index.js';
import { Angle, Length, nauticalMiles, Position, type Instant } from '../../core/units/index.js';
import { Question, type ExpectedLine, type Figures } from '../question/index.js';
import {
  crossing,
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
import { EYES, NEVER_ALONE, WORK_FROM_TABLES } from './cautions.js';
import { drawnFields, mistakesOf, type ExerciseOptions } from './exercise-options.js';
import { fixLines } from './fix-lines.js';
import { reductionLines } from './reduction-lines.js';

/** Two Sun sights some hours apart and the run between them. */
export interface RunningFix {
  readonly sights: readonly [Sight, Sight];
  /** DR at the first sight. */
  readonly dr: Position;
  readonly course: Angle;
  readonly speedKn: number;
}

const DR_ERROR_NM = 12;
const LEAST_CROSSING_DEG = 40;
const names = ['first sight', 'second sight'] as const;

/** A Sun run from forenoon to afternoon: two lines, the first carried on by the run, to a fix. */
export function runningFix(options: ExerciseOptions): Question<RunningFix> {
  const id = 'running-fix';
  const { seed, random } = drawnBy(id, options);
  const given = drawUntil(random, (r): RunningFix | undefined => {
    const { position, day, course } = drawSetting(r);
    const noon = 12 - position.lonDeg / 15;
    const speedKn = Math.round((4 + 2.5 * r.uniform()) * 10) / 10;
    const time = (hour: number) =>
      [...moments(day, hour, hour + 0.02, 1, r.below(60))][0] as Instant;
    const [first, second] = [
      time(noon - 3.5 + 2 * r.uniform()),
      time(noon + 0.8 + 2 * r.uniform()),
    ];
    const run = nauticalMiles((speedKn * second.minus(first).seconds) / 3600);
    const then = rhumbDestination(position, course, run);
    const [a, b] = [seenFrom('Sun', first, position), seenFrom('Sun', second, then)];
    if (!inReach(a.altDeg) || !inReach(b.altDeg)) return undefined;
    if (crossing(a.azDeg, b.azDeg) < LEAST_CROSSING_DEG) return undefined;
    const dr = drawDr(r, position, DR_ERROR_NM);
    const gear = { body: 'Sun', limb: 'lower', ...drawGear(r) } as const;
    const sights = [
      takeSight({ ...gear, dr }, first, position),
      takeSight(gear, second, then),
    ] as const;
    return { sights, dr, course, speedKn };
  });
  return new Question<RunningFix>({
    id,
    title: 'A running fix by the Sun',
    task: 'Reduce the first sight from its DR. Carry the DR on by the run, reduce the second sight from there, move the first line by the run, and take the fix at the time of the second sight. The observed altitudes are given.',
    given,
    printed: [
      ['DR at the first sight', given.dr.toString()],
      ['True course', `${String(given.course.degrees).padStart(3, '0')}°`],
      ['Speed', `${given.speedKn.toFixed(1)} kn`],
      [
        'First sight',
        `${given.sights[0].instant.toString()}, observed altitude ${observed(given.sights[0]).toString()}`,
      ],
      [
        'Second sight',
        `${given.sights[1].instant.toString()}, observed altitude ${observed(given.sights[1]).toString()}`,
      ],
    ],
    lines: [...firstLines, ...runLines, ...secondLines, ...fix] as never,
    ...drawnFields(seed, options, given.sights[0]),
    mistakes: (g) => [
      ...mistakesOf(g.sights[0], (s) => ({
        ...g,
        dr: s.dr ?? g.dr,
        sights: [s, g.sights[1]] as const,
      })),
      ...mistakesOf(g.sights[1], (s) => ({ ...g, sights: [g.sights[0], s] as const })),
    ],
    cautions: [EYES, NEVER_ALONE, WORK_FROM_TABLES],
  });
}

/** As it is given to the student: to the tenth. */
const observed = (s: Sight): Angle =>
  Angle.arcminutes(Math.round(stagesOf(s).stages.observedDeg * 600) / 10);

/** Observed altitudes are given, so the intercept is worked from them and not from a line. */
function sightLines(
  i: 0 | 1,
  from: (g: RunningFix, f: Pick<Figures, 'angle'>) => Position,
): ExpectedLine<RunningFix>[] {
  const mark = String(i + 1);
  const lines = reductionLines<RunningFix>({
    mark,
    name: i === 0 ? 'First sight' : 'Second sight',
    sight: (g) => g.sights[i],
    from,
  });
  return lines.map((line) =>
    line.id === `intercept${mark}`
      ? {
          ...line,
          rule: (g, f) =>
            Length.nauticalMiles(observed(g.sights[i]).minus(f.angle(`hc${mark}`)).arcminutes),
        }
      : line,
  );
}

const hours = (g: RunningFix): Duration => g.sights[1].instant.minus(g.sights[0].instant);
const carried = (g: RunningFix, run: Length): Position => rhumbDestination(g.dr, g.course, run);
const nextDr = (f: Pick<Figures, 'angle'>): Position =>
  Position.of(f.angle('drLatitude'), f.angle('drLongitude'));

const firstLines = sightLines(0, (g) => g.dr);
const secondLines = sightLines(1, (_g, f) => nextDr(f));
const fix = fixLines<RunningFix>(
  names.map((name, i) => ({ mark: String(i + 1), name: `the ${name}` })),
  (_g, f) => nextDr(f),
);

const runLines: readonly ExpectedLine<RunningFix>[] = [
  {
    id: 'run',
    title: 'Run',
    quantity: 'distance',
    formula: 'speed times the time between the sights',
    rule: (g) => nauticalMiles(g.speedKn * hours(g).hours),
    slips: (g) => [
      {
        name: 'sixty and a hundred',
        value: nauticalMiles(g.speedKn * hundredMinutes(hours(g))),
        sentence: 'Minutes of time were taken as hundredths of an hour: divide them by sixty.',
      },
      ...[1, -1].map((by) => ({
        name: 'hour of time',
        value: nauticalMiles(g.speedKn * (hours(g).hours + by)),
        sentence: 'The time between the sights is out by one hour.',
      })),
    ],
    hint: 'Turn the minutes into decimals of an hour first.',
  },
  {
    id: 'drLatitude',
    title: 'DR latitude at the second sight',
    quantity: 'latitude',
    formula: 'the first DR carried on along the course by the run',
    rule: (g, f) => carried(g, f.length('run')).latitude,
    slips: (g, f) => [
      {
        name: 'course reversed',
        value: carried(g, f.length('run').times(-1)).latitude,
        sentence: 'The DR was carried back along the course instead of on.',
      },
    ],
  },
  {
    id: 'drLongitude',
    title: 'DR longitude at the second sight',
    quantity: 'longitude',
    formula: 'the departure divided by the cosine of the mean latitude, applied to the first DR',
    rule: (g, f) => carried(g, f.length('run')).longitude,
    slips: (g, f) => [
      {
        name: 'course reversed',
        value: carried(g, f.length('run').times(-1)).longitude,
        sentence: 'The DR was carried back along the course instead of on.',
      },
      {
        name: 'departure taken for difference of longitude',
        value: Angle.degrees(
          g.dr.lonDeg + (f.length('run').nauticalMiles * Math.sin(g.course.radians)) / 60,
        ),
        sentence:
          'The departure in miles was used as minutes of longitude: divide it by the cosine of the latitude.',
      },
    ],
  },
];

/** 2 h 36 m read as 2.36 h. */
function hundredMinutes(span: Duration): number {
  const whole = Math.floor(span.hours);
  return whole + (span.minutes - 60 * whole) / 100;
}
