import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  Angle,
  check,
  CheckFailed,
  indexCheck,
  noonLatitude,
  passageToJudge,
  question,
  quantities,
  runForMarks,
  runningFix,
  starRound,
  sunAltitude,
  sight,
  stagesOf,
  type FigureValue,
  type Question,
} from '../../src/index.js';
import { workedAnswer } from './worked-answer.js';

const STUDENTS = Array.from({ length: 25 }, (_, i) => `Student ${i}`);
const KINDS = { indexCheck, sunAltitude, noonLatitude, starRound, runningFix, passageToJudge };
const kinds = Object.entries(KINDS) as unknown as [
  string,
  (o: { student: string; method?: 'tenths' | 'tables' | 'formula' }) => Question<unknown>,
][];
const shifted = (arcmin: number) => (right: FigureValue) =>
  (right as Angle).plus(Angle.arcminutes(arcmin));

describe('a working checked with follow-through', () => {
  it.each(kinds)(
    '%s: figures worked to the tenth earn all marks, for every student',
    (_name, kind) => {
      for (const student of STUDENTS) {
        const q = kind({ student, method: 'tenths' });
        const feedback = check(q, workedAnswer(q));
        expect(feedback.text).toContain('lines are right');
        expect(feedback.marks).toBe(q.marks);
      }
    },
  );
  it('one slip costs one line: those after it follow from it', () => {
    for (const student of STUDENTS) {
      const q = sunAltitude({ student, method: 'tenths' });
      const feedback = check(q, workedAnswer(q, { apparent: shifted(10) }));
      expect(feedback.firstWrong?.id).toBe('apparent');
      expect(feedback.lines.filter((l) => l.standing === 'wrong').map((l) => l.id)).toEqual([
        'apparent',
      ]);
      expect(feedback.lines.find((l) => l.id === 'observed')?.standing).toBe('follows');
      expect(feedback.marks).toBe(q.marks - 1);
    }
  });
  it('a slip in a star’s declination costs that line, through altitude, azimuth, intercept and fix', () => {
    for (const student of STUDENTS) {
      const q = starRound({ student, method: 'tenths' });
      const feedback = check(q, workedAnswer(q, { declination2: shifted(60) }));
      expect(feedback.lines.filter((l) => l.marks < l.outOf).map((l) => l.id)).toEqual([
        'declination2',
      ]);
      expect(feedback.slips).toEqual([{ line: 'declination2', name: 'whole degree' }]);
    }
  });
  it('a right line below a wrong one is right, and says that it does not follow', () => {
    const q = sunAltitude({ student: 'Ana Lima', method: 'tenths' });
    const right = workedAnswer(q);
    const feedback = check(q, { ...right, dip: '−9.9′' });
    const apparent = feedback.lines.find((l) => l.id === 'apparent');
    expect(apparent?.standing).toBe('right');
    expect(apparent?.sentences[0]).toMatch(/figures above do not lead to it/);
  });
  it('values of the library serve as well as texts', () => {
    const q = sunAltitude({ student: 'Ana Lima', method: 'formula' });
    const { stages } = stagesOf(q.given.sight);
    const { standing, written } =
      check(q, { dip: Angle.arcminutes(stages.dipArcmin) }).lines[1] ?? {};
    expect([standing, written]).toEqual([
      'right',
      quantities.correction.print(Angle.arcminutes(stages.dipArcmin)),
    ]);
  });
  it('missing lines are counted as missing and the next are worked from the right figures', () => {
    const q = sunAltitude({ student: 'Ana Lima', method: 'tenths' });
    const { observed } = workedAnswer(q);
    const feedback = check(q, { observed });
    expect(feedback.lines.map((l) => l.standing)).toEqual([...Array(6).fill('missing'), 'right']);
    expect(feedback.firstWrong?.id).toBe('indexCorrection');
  });
  it('what cannot be read is refused with the right form, and nothing is thrown', () => {
    const q = sunAltitude({ student: 'Ana Lima', method: 'tenths' });
    const feedback = check(q, {
      dip: '2.8′',
      observed: '41 degrees',
      apparent: 41,
      refraction: { a: 1 },
      bogus: '1',
    });
    const by = (id: string) => feedback.lines.find((l) => l.id === id);
    expect(by('dip')?.sentences[0]).toMatch(/needs its sign/);
    expect(by('apparent')?.sentences[0]).toMatch(/bare number/);
    expect(by('refraction')?.standing).toBe('unreadable');
    expect(feedback.unknown).toEqual(['bogus']);
  });
  it('a correction without a mark is minutes, and what cannot be read is answered with the form of its own line', () => {
    const q = sunAltitude({ student: 'Ana Lima', method: 'tenths' });
    const right = String(workedAnswer(q)['dip']);
    const feedback = check(q, { dip: right.replace('′', ''), refraction: '-1, 2' });
    const by = (id: string) => feedback.lines.find((l) => l.id === id);
    expect(by('dip')?.standing).toBe('right');
    expect(by('refraction')?.sentences[0]).toMatch(/decimal point\. Write \+1\.4′ or −2\.8′\.$/);
  });
});

describe('a failed check', () => {
  it('reads figures as people type them: a decimal comma, any dash, blanks, other marks', () => {
    const q = sunAltitude({ student: 'Comma', method: 'tenths' });
    const right = workedAnswer(q);
    const typed = (change: (text: string) => string) =>
      Object.fromEntries(Object.entries(right).map(([id, text]) => [id, change(String(text))]));
    for (const change of [
      (t: string) => t.replace('.', ','),
      (t: string) => t.replace('−', '–'),
      (t: string) => t.replace('−', '—'),
      (t: string) => t.replace('−', '-').replace('.', ',').replace('′', ''),
      (t: string) => ` ${t.replace('°', ' º ').replace('′', ' ’ ')} `,
      (t: string) => t.replace('−', '\u2011 ').replace('°', '˚'),
    ])
      expect(check(q, typed(change)).text).toContain('lines are right');
    const round = starRound({ student: 'Comma', method: 'tenths' });
    const inWords = workedAnswer(round);
    const bare = (of: string) =>
      Object.fromEntries(
        Object.entries(inWords).map(([id, text]) => [id, String(text).replace(/ nm (\w)\w+$/, of)]),
      );
    for (const of of [' $1', ' M $1', '$1', ' nm $1'])
      expect(check(round, bare(of)).text).toContain('lines are right');
    const refused = check(
      q,
      typed((t) => t.replace('.', ', ')),
    ).lines;
    expect(refused.every(({ standing }) => standing === 'unreadable')).toBe(true);
    expect(check(q, { dip: '1.234,5′' }).lines[1]?.standing).toBe('unreadable');
  });
  it('keeps an answer in words as it is, without marks and without judging it', () => {
    const q = question({
      id: 'why',
      title: 'Why',
      task: 'Say why.',
      given: {},
      printed: [],
      lines: [
        {
          id: 'dip',
          title: 'Dip',
          quantity: 'correction',
          formula: 'D',
          rule: () => Angle.arcminutes(-2.8),
          tolerance: "0.3'",
        },
        { id: 'why', title: 'How do you know?', quantity: 'words' },
      ],
    });
    const words = 'The horizon, 2,5 miles off – "below" the level\n= so it is taken off.';
    const feedback = check(q, { dip: '−3.1′', why: words });
    expect(feedback.summary).toBe('The line is right.');
    expect([feedback.marks, feedback.outOf, q.marks, feedback.passed]).toEqual([1, 1, 1, true]);
    expect(feedback.lines[1]).toMatchObject({ standing: 'words', written: words });
    expect(check(q, { dip: '−3.2′', why: '' }).lines.map((l) => l.standing)).toEqual([
      'wrong',
      'missing',
    ]);
  });
  it('refuses a tolerance without a unit, or in another than the line’s', () => {
    const withTolerance = (quantity: 'altitude' | 'intercept' | 'choice', tolerance: never) =>
      question({
        id: 'x',
        title: '',
        task: '',
        given: {},
        printed: [],
        lines: [{ id: 'a', title: '', quantity, formula: '', rule: () => '', tolerance }],
      });
    const made = (quantity: 'altitude' | 'intercept' | 'choice', text: string) => () =>
      withTolerance(quantity, text as never);
    expect(made('altitude', '0.5')).toThrow(/a size with its unit/);
    expect(made('altitude', '1°')).toThrow(/compared in ′, so its tolerance cannot be in °/);
    expect(made('choice', '1°')).toThrow(/answered in words/);
    expect(made('intercept', '0.5′')).not.toThrow();
  });
  it('shows its marks as a bare number to a grading server that reads them from the output', () => {
    const q = sunAltitude({ student: 'Ben', method: 'tenths' });
    const half = check(q, workedAnswer(q, { dip: (right) => (right as Angle).negated() }));
    const shown = () =>
      (half as unknown as Record<symbol, () => Record<string, string>>)[
        Symbol.for('Jupyter.display')
      ]?.()['text/plain'];
    expect(shown()).toMatch(/^From the sextant/);
    process.env['COCKED_HAT_MARKS'] = 'points';
    try {
      expect(shown()).toBe('7');
      expect(check(q, {}).marks).toBe(0);
    } finally {
      delete process.env['COCKED_HAT_MARKS'];
    }
  });
  it('is feedback while learning and a real error in a run for marks', () => {
    const q = sunAltitude({ student: 'Ana Lima', method: 'tenths' });
    expect(check(q, {}).passed).toBe(false);
    expect(() => check(q, {}, { marks: true })).toThrow(CheckFailed);
    runForMarks();
    try {
      expect(() => check(q, {})).toThrow(/first still to write is “Index correction”/);
      expect(check(q, workedAnswer(q)).passed).toBe(true);
    } finally {
      runForMarks(false);
    }
  });
});

describe('what is said to the student', () => {
  it('never holds the right figure of a line that is wrong', () => {
    for (const student of STUDENTS)
      for (const [, kind] of kinds) {
        const q = kind({ student, method: 'tenths' });
        const right = workedAnswer(q);
        const spoilt = Object.fromEntries(
          q.lines.map((l) => [l.id, l.quantity === 'altitude' ? '1°02.3′' : '']),
        );
        const { text } = check(q, spoilt);
        for (const line of q.lines)
          if (['altitude', 'hourAngle', 'latitude', 'longitude'].includes(line.quantity))
            expect(text).not.toContain(right[line.id]);
      }
  });
  it('copes with any text on any line', () => {
    const q = noonLatitude({ student: 'Ana Lima' });
    const ids = q.lines.map((l) => l.id);
    fc.assert(
      fc.property(
        fc.dictionary(
          fc.constantFrom(...ids, 'x'),
          fc.oneof(fc.string(), fc.double(), fc.anything()),
        ),
        (answer) => {
          const feedback = check(q, answer);
          expect(feedback.marks).toBeLessThanOrEqual(feedback.outOf);
          expect(feedback.text).not.toMatch(/NaN|undefined/);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('tolerances', () => {
  it('accept the printed result of a sight worked by tables, which the chain of formulas misses by 0.16′', () => {
    // U.S. Navy, NAVEDTRA 14220/14221, ch. 9 p. 9-24: Sun lower limb, 1984-03-31 09:15:38, hs 25°46.9′, 50 ft, IC −1.0′, Ho 25°53.3′.
    const printed = sight({
      body: 'Sun',
      limb: 'lower',
      reading: '25°46.9′',
      time: '1984-03-31 09:15:38 UTC',
      eyeHeight: '50 ft',
      indexError: '1.0′ on the arc',
    });
    const asked = (method: 'tables' | 'formula') =>
      question({
        id: 'printed',
        title: 'A printed sight',
        task: 'Work it.',
        given: printed,
        printed: [],
        method,
        lines: [
          {
            id: 'observed',
            title: 'Observed altitude',
            quantity: 'altitude',
            formula: 'Ho',
            rule: (s) => Angle.degrees(stagesOf(s).stages.observedDeg),
          },
        ],
      });
    expect(check(asked('tables'), { observed: '25°53.3′' }).passed).toBe(true);
    expect(check(asked('formula'), { observed: '25°53.3′' }).passed).toBe(false);
  });
  it('are the published standard for a result when no method is named', () => {
    const q = noonLatitude({ student: 'Ana Lima' });
    // USCG NVIC 12-14, task 1.1.D: altitude at local apparent noon within 1.0′.
    expect(q.tolerance(q.line('latitude'))?.size).toBe(1);
    expect(q.tolerance(q.line('latitude'))?.source).toContain('1.1.D');
    expect(q.tolerance(q.line('dip'))?.size).toBeCloseTo(0.1, 1);
  });
});
