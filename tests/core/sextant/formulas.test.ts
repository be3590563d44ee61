import katex from 'katex';
import { expect, test } from 'vitest';
import {
  indexErrorFromHorizon,
  indexErrorFromSun,
  observedAltitude,
  watchCorrection,
  type Sight,
  type Step,
} from 'cocked-hat';
import { of, sun } from './examples.js';

const certificate = [
  ['0°', '0′'],
  ['90°', '0.3′'],
] as const;
/** Sights that between them use every rule. */
const sights: readonly Sight[] = [
  sun({ instrumentTable: certificate }),
  sun({ reading: '5°00.0′' }),
  sun({ reading: '130°00.0′', waterlineDistance: '0.5 nmi' }),
  sun({ horizon: 'artificial', reading: ['82°00.0′', '82°01.0′'] }),
  of('Moon', { limb: 'upper' }),
  of('Venus'),
];
const steps: readonly Step[] = [
  ...sights.flatMap((s) => observedAltitude(s).steps),
  ...indexErrorFromSun({ on: '30.2′', off: '33.0′', semidiameter: '15.8′' }).steps,
  ...indexErrorFromHorizon(['1.4 off', '1.2 off']).steps,
  ...watchCorrection(sun({ watch: { error: '12 s fast' } })).steps,
];

test('every rule is here', () => {
  expect([...new Set(steps.map((s) => s.rule))].sort()).toEqual([
    'apparent',
    'augmentation',
    'back-sight',
    'dip',
    'earth-figure',
    'halving',
    'index',
    'index-error',
    'instrument',
    'observed',
    'parallax',
    'phase',
    'reading',
    'refraction',
    'semidiameter',
    'semidiameter-check',
    'watch',
  ]);
});
test('every formula can be set by a LaTeX engine', () => {
  for (const { formula } of steps)
    expect(() =>
      katex.renderToString(formula.latex, { throwOnError: true, strict: 'error' }),
    ).not.toThrow();
});
test('every step says what it does, from what, and where that comes from', () => {
  for (const step of steps) {
    expect(step.title).not.toBe('');
    expect(step.formula.plain).not.toBe('');
    expect(step.source).not.toBe('');
    if (step.kind === 'correction') expect(step.figures).toMatch(/[+−]?\d+\.\d′$/);
    for (const i of step.inputs) expect(i.text).not.toMatch(/NaN|undefined/);
  }
});
