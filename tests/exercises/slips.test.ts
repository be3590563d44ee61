import { describe, expect, it } from 'vitest';
import {
  Angle,
  check,
  indexCheck,
  Instant,
  Length,
  noonLatitude,
  passageToJudge,
  quantities,
  runningFix,
  sight,
  sightMistakes,
  sightPlace,
  slipRules,
  starRound,
  stagesOf,
  sunAltitude,
  type Feedback,
  type FigureValue,
  type Question,
  type Sight,
  type SightFields,
} from '../../src/index.js';
import { figureSlips } from '../../src/exercises/slips/figure-slips.js';
import { slipHypotheses } from '../../src/core/fix/slip-hypotheses.js';
import { workedAnswer } from './worked-answer.js';

const STUDENTS = Array.from({ length: 30 }, (_, i) => `Student ${i}`);
const OPTIONS = { method: 'tenths' } as const;

type Make<G> = (q: Question<G>) => (right: FigureValue) => FigureValue | string;
interface Planted<G> {
  readonly slip: string;
  readonly line: string;
  readonly make: Make<G>;
}

/** How often the planted slip is named first, and how often it is named at all, over the students in whom it shows. */
function tally<G>(
  kind: (o: { student: string; method: 'tenths' }) => Question<G>,
  { slip, line, make }: Planted<G>,
) {
  const count = { shown: 0, first: 0, named: 0 };
  for (const student of STUDENTS) {
    const q = kind({ student, ...OPTIONS });
    const feedback: Feedback = check(q, workedAnswer(q, { [line]: make(q) }));
    const verdict = feedback.lines.find((l) => l.id === line);
    if (verdict?.standing !== 'wrong') continue;
    count.shown += 1;
    expect(feedback.firstWrong?.id).toBe(line);
    if (verdict.slip?.name === slip) count.first += 1;
    if ([verdict.slip?.name, ...(verdict.slip?.others ?? [])].includes(slip)) count.named += 1;
  }
  return count;
}

const negated = () => (right: FigureValue) =>
  right instanceof Length ? right.times(-1) : (right as Angle).negated();
const by = (degrees: number) => () => (right: FigureValue) =>
  (right as Angle).plus(Angle.degrees(degrees));
const again = (s: Sight, change: Partial<SightFields>): Sight => sight({ ...s.fields, ...change });
const later = (s: Sight, seconds: number): Sight =>
  again(s, { time: Instant.fromEpochMs(s.instant.epochMs + 1000 * seconds) });
const hundredths = () => (right: FigureValue) => {
  const { degrees } = right as Angle;
  const whole = Math.floor(degrees);
  return Angle.degrees(whole + ((degrees - whole) * 100) / 60);
};

function expectNamed(count: ReturnType<typeof tally>, leastShown = 20) {
  expect(count.shown).toBeGreaterThanOrEqual(leastShown);
  expect(count.named).toBe(count.shown);
  // Now and then the numbers let another slip explain the figure as well; then both are named.
  expect(count.first / count.shown).toBeGreaterThanOrEqual(0.9);
}

describe('digits that changed places', () => {
  const slipOf = (quantity: 'altitude' | 'correction' | 'latitude', right: Angle, wrong: string) =>
    figureSlips(quantity, right).find(
      ({ name, value }) =>
        name === 'digits exchanged' && quantities[quantity].print(value) === wrong,
    );
  it.each([
    ['altitude', 52 + 23.9 / 60, '25°23.9′'],
    ['altitude', 52 + 23.9 / 60, '52°32.9′'],
    ['correction', -16.2 / 60, '−61.2′'],
    ['latitude', -(15 + 55.2 / 60), '51°55.2′ S'],
  ] as const)('in a figure of kind %s are found', (quantity, degrees, wrong) => {
    expect(slipOf(quantity, Angle.degrees(degrees), wrong)?.sentence).toMatch(/changed places/);
  });
  it('leave out what is no figure, and digits that are alike', () => {
    const values = figureSlips('altitude', Angle.degrees(11 + 27.4 / 60));
    expect(values.filter(({ name }) => name === 'digits exchanged')).toEqual([]);
  });
});

describe('a slip is named', () => {
  const index: Planted<
    Parameters<typeof indexCheck>[0] extends never ? never : ReturnType<typeof indexCheck>['given']
  >[] = [
    { slip: 'index sign', line: 'indexError', make: negated },
    { slip: 'not halved', line: 'indexError', make: () => (r) => (r as Angle).times(2) },
    { slip: 'sign', line: 'indexCorrection', make: negated },
    { slip: 'half for a quarter', line: 'semidiameter', make: () => (r) => (r as Angle).times(2) },
  ];
  it.each(index)('index check, $line: $slip', (planted) => expectNamed(tally(indexCheck, planted)));

  const sun: Planted<ReturnType<typeof sunAltitude>['given']>[] = [
    { slip: 'sign of the index correction', line: 'indexCorrection', make: negated },
    { slip: 'sign of the dip', line: 'dip', make: negated },
    {
      slip: 'height unit',
      line: 'dip',
      make: (q) => () =>
        Angle.arcminutes(-1.758 * Math.sqrt((q.given.sight.eyeHeight?.metres ?? 0) * 0.3048)),
    },
    {
      slip: 'sign of dip',
      line: 'apparent',
      make: (q) => (r) =>
        (r as Angle).minus(Angle.arcminutes(2 * stagesOf(q.given.sight).stages.dipArcmin)),
    },
    { slip: 'sixty and a hundred', line: 'apparent', make: hundredths },
    { slip: 'unit', line: 'dip', make: () => (r) => (r as Angle).times(60) },
    { slip: 'unit', line: 'semidiameter', make: () => (r) => (r as Angle).times(1 / 60) },
    {
      slip: 'minutes left out',
      line: 'observed',
      make: () => (r) => Angle.degrees(Math.trunc((r as Angle).degrees)),
    },
    { slip: 'whole degree', line: 'apparent', make: by(1) },
    { slip: 'ten minutes', line: 'apparent', make: by(-1 / 6) },
    { slip: 'wrong limb', line: 'semidiameter', make: negated },
    {
      slip: 'diameter for semi-diameter',
      line: 'semidiameter',
      make: () => (r) => (r as Angle).times(2),
    },
    {
      slip: 'semi-diameter forgotten',
      line: 'observed',
      make: (q) => (r) =>
        (r as Angle).minus(Angle.arcminutes(stagesOf(q.given.sight).stages.sdArcmin)),
    },
  ];
  it.each(sun)('Sun altitude, $line: $slip', (planted) => expectNamed(tally(sunAltitude, planted)));

  const noon: Planted<ReturnType<typeof noonLatitude>['given']>[] = [
    { slip: 'north for south', line: 'declination', make: negated },
    {
      slip: 'date',
      line: 'declination',
      make: (q) => () => sightPlace(later(q.given.sight, 86400)).declination,
    },
    { slip: 'sixty and a hundred', line: 'zenithDistance', make: by(40 / 60) },
    { slip: 'north for south', line: 'latitude', make: negated },
    {
      slip: 'name of the zenith distance',
      line: 'latitude',
      make: (q) => (r) =>
        sightPlace(q.given.sight)
          .declination.times(2)
          .minus(r as Angle),
    },
  ];
  it.each(noon)('noon, $line: $slip', (planted) => expectNamed(tally(noonLatitude, planted)));

  const star: Planted<ReturnType<typeof starRound>['given']>[] = [
    {
      slip: 'hour of time',
      line: 'gha1',
      make: (q) => () => sightPlace(later(q.given.sights[0], 3600)).gha,
    },
    {
      slip: 'date',
      line: 'gha2',
      make: (q) => () => sightPlace(later(q.given.sights[1], -86400)).gha,
    },
    {
      slip: 'minute of time',
      line: 'gha3',
      make: (q) => () => sightPlace(later(q.given.sights[2], 60)).gha,
    },
    {
      slip: 'sign of the longitude',
      line: 'lha1',
      make: (q) => (r) => (r as Angle).minus(q.given.dr.longitude.times(2)),
    },
    {
      slip: 'dip forgotten',
      line: 'observed1',
      make: (q) => (r) =>
        (r as Angle).minus(Angle.arcminutes(stagesOf(q.given.sights[0]).stages.dipArcmin)),
    },
    { slip: 'toward for away', line: 'intercept1', make: negated },
    { slip: 'reciprocal', line: 'zn2', make: by(180) },
  ];
  it.each(star)('star round, $line: $slip', (planted) =>
    expectNamed(tally(starRound, planted), 14),
  );

  const run: Planted<ReturnType<typeof runningFix>['given']>[] = [
    {
      slip: 'hour of time',
      line: 'run',
      make: (q) => (r) => (r as Length).plus(Length.nauticalMiles(q.given.speedKn)),
    },
    {
      slip: 'date',
      line: 'gha1',
      make: (q) => () => sightPlace(later(q.given.sights[0], 86400)).gha,
    },
    { slip: 'north for south', line: 'drLatitude', make: negated },
    { slip: 'east for west', line: 'longitude', make: negated },
  ];
  it.each(run)('running fix, $line: $slip', (planted) =>
    expectNamed(tally(runningFix, planted), 6),
  );

  it('passage to judge: the slip left in the mean', () => {
    let named = 0;
    for (const student of STUDENTS) {
      const q = passageToJudge({ student, ...OPTIONS });
      const suspect = q.expected().get('suspect') as string;
      const observer = q.given.rows.find((r) => String(r.number) === suspect)?.observer ?? 'A';
      const rows = q.given.rows.filter((r) => r.observer === observer);
      const mean = rows.reduce((sum, r) => sum + r.interceptNm, 0) / rows.length;
      const line = `bias${observer}`;
      const feedback = check(q, workedAnswer(q, { [line]: () => Length.nauticalMiles(mean) }));
      if (feedback.slips.some((s) => s.line === line && s.name === 'the slip left in the mean'))
        named += 1;
    }
    expect(named).toBe(STUDENTS.length);
  });
});

describe('a figure that no known slip explains', () => {
  it('is called wrong without a guess, and the rule of the line is repeated', () => {
    const q = sunAltitude({ student: 'Ana Lima', ...OPTIONS });
    const feedback = check(q, workedAnswer(q, { apparent: by(-7.77)() }));
    expect(feedback.slips).toEqual([]);
    expect(feedback.firstWrong?.sentences.join(' ')).toContain(
      'reading with index correction and dip applied',
    );
  });
});

describe('a sight with one thing mistaken', () => {
  // The exercises know what was given, the fix must infer it: two engines, which must mean the same by one name.
  it('moves as the slip of that name does in the fix’s own engine', () => {
    const sights: Sight[] = STUDENTS.slice(0, 10).map(
      (student) => sunAltitude({ student, method: 'tenths' }).given.sight,
    );
    const known = new Set<string>(slipRules.map((rule) => rule.kind));
    const seen = new Set<string>();
    for (const right of sights) {
      const undone = slipHypotheses(right, right.dr?.longitude.degrees);
      const ho = (s: Sight) => 60 * stagesOf(s).stages.observedDeg;
      for (const { name, sight: mistaken } of sightMistakes(right)) {
        if (!known.has(name) || name === 'latitude name' || name === 'longitude name') continue;
        seen.add(name);
        const moved = ho(mistaken) - ho(right);
        const gha = sightPlace(mistaken).gha.degrees;
        const same = undone.filter(
          (h) =>
            h.kind === name &&
            // The fix's engine takes a dip for itself; here refraction follows it, by under 0.01′ at these altitudes.
            Math.abs(Math.abs(h.altitudeArcmin) - Math.abs(moved)) < 0.01 &&
            Math.abs(h.ghaDeg - gha) < 1e-9,
        );
        expect(same.length, `${name} of ${right.body}: ${moved}′`).toBeGreaterThan(0);
      }
    }
    expect([...seen].sort()).toEqual([
      'date',
      'height unit',
      'hour of time',
      'index sign',
      'minute of time',
      'twelve hours',
      'wrong limb',
    ]);
  });
});
