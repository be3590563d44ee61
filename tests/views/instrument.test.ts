import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drumReading } from '../../src/core/units/index.js';
import { frameReadingAt } from '../../src/views/instrument/arc-svg.js';
import { drumPose, eyeFigures, VERNIER_SPACE } from '../../src/views/instrument/drum-pose.js';
import { perpendicularitySvg } from '../../src/views/instrument/field-svg.js';
import { drawingLayout, instrumentSvg } from '../../src/views/instrument/instrument-svg.js';
import { sextantView } from '../../src/views/instrument/index.js';
import { judgeReading } from '../../src/views/instrument/misreading.js';
import { trainerReading } from '../../src/views/instrument/trainer-reading.js';
import { DISPLAY } from '../../src/views/mime.js';
import { svgMarkup, type SvgNode } from '../../src/views/svg/svg-node.js';

const tenths = fc.integer({ min: -3000, max: 75_000 });

test('what the eye takes down from the drawn sextant is the angle it was set to', () => {
  fc.assert(
    fc.property(tenths, (t) => {
      const { drumMinutes, ...rest } = eyeFigures(drumPose(t / 600));
      // Off the arc at a whole degree the drum stands at nought and nothing is taken from 60′.
      expect(Math.round(drumReading({ drumMinutes, ...rest }).degrees * 600)).toBe(t);
    }),
  );
});

test('the vernier line named is the one that stands in line with a line of the drum', () => {
  fc.assert(
    fc.property(tenths, (t) => {
      const { drumMinutes, vernierLine } = drumPose(t / 600);
      const miss = (k: number) => {
        const at = drumMinutes + k * VERNIER_SPACE;
        return Math.abs(at - Math.round(at));
      };
      const best = Math.min(...Array.from({ length: 10 }, (_, k) => miss(k)));
      expect(miss(vernierLine)).toBeCloseTo(best, 9);
      expect(best).toBeCloseTo(0, 9);
    }),
  );
});

test('each kind of misreading is named', () => {
  const cases: readonly (readonly [shown: number, read: number, kind: string])[] = [
    [34 + 17.6 / 60, 34 + 17.6 / 60, 'right'],
    [34 + 17.6 / 60, 34 + 17.7 / 60, 'right'],
    [34 + 58.4 / 60, 35 + 58.4 / 60, 'whole degree'],
    [35 + 1.2 / 60, 34 + 1.2 / 60, 'whole degree'],
    [34 + 17.6 / 60, 34 + 42.4 / 60, 'drum the wrong way'],
    [-1.4 / 60, -58.6 / 60, 'drum the wrong way'],
    [-1.4 / 60, 1.4 / 60, 'on and off the arc'],
    [-1.4 / 60, 58.6 / 60, 'on and off the arc'],
    [-(2 + 1.4 / 60), 2 + 58.6 / 60, 'on and off the arc'],
    [17.6 / 60, -42.4 / 60, 'on and off the arc'],
    [34 + 17.6 / 60, 34 + 27.6 / 60, 'figure of the drum'],
    [34 + 17.6 / 60, 34 + 18.6 / 60, 'minute line'],
    [34 + 17.6 / 60, 34 + 17.2 / 60, 'vernier line'],
    [34 + 17.6 / 60, 51.2, 'other'],
  ];
  for (const [shown, read, kind] of cases)
    expect([shown, judgeReading(shown, read).kind]).toEqual([shown, kind]);
});

test('the turn of the drum is explained where it is the cause', () => {
  expect(judgeReading(34 + 58.4 / 60, 35 + 58.4 / 60).words).toContain('not yet reached');
  expect(judgeReading(35 + 1.2 / 60, 34 + 1.2 / 60).words).toContain('just past a line');
});

test('the arm points to the reading that a pointer on it is taken for', () => {
  fc.assert(
    fc.property(tenths, fc.constantFrom(300, 720), (t, width) => {
      const { frame } = drawingLayout(width);
      const arm = armLine(instrumentSvg(t / 600, { width, isClose: false, isTold: true }));
      // Drawn to a tenth of a pixel on an arm of over 140.
      expect(Math.abs(frameReadingAt(arm.x2, arm.y2, frame) - t / 600)).toBeLessThan(0.1);
    }),
  );
});

/** The one line in the accent that is 3 wide. */
function armLine(node: SvgNode): { x2: number; y2: number } {
  const markup = svgMarkup(node);
  const line = /<line [^>]*stroke="var\(--ch-accent[^>]*stroke-width="3"[^>]*>/.exec(markup)?.[0];
  const at = (name: string) => Number(new RegExp(` ${name}="([-0-9.]+)"`).exec(line ?? '')?.[1]);
  return { x2: at('x2'), y2: at('y2') };
}

test('an index mirror that does not lean shows the arc without a step, one that leans with a step', () => {
  const step = (lean: number) => {
    const paths = [...svgMarkup(perpendicularitySvg(lean)).matchAll(/ d="([^"]+)"/g)];
    const numbers = paths.map(([, d]) => (d ?? '').match(/-?[0-9.]+/g)?.map(Number) ?? []);
    return (numbers[0]?.at(-1) ?? NaN) - (numbers[1]?.[1] ?? NaN);
  };
  expect(step(0)).toBe(0);
  expect(step(5)).toBeGreaterThan(3);
  expect(step(-5)).toBeLessThan(-3);
});

test('the trainer’s readings follow from the seed, stay on the arc and come off the arc and at the turn of the drum', () => {
  const readings = Array.from({ length: 400 }, (_, n) => trainerReading(7, n));
  expect(readings).toEqual(Array.from({ length: 400 }, (_, n) => trainerReading(7, n)));
  expect(readings).not.toEqual(Array.from({ length: 400 }, (_, n) => trainerReading(8, n)));
  expect(Math.min(...readings)).toBeGreaterThan(-5);
  expect(Math.max(...readings)).toBeLessThan(125);
  // One in eight of 400 is 50, give or take 6.6 (binomial); four of those either way.
  const off = readings.filter((r) => r < 0).length;
  expect(Math.abs(off - 50)).toBeLessThan(27);
  const turn = readings.filter((r) => r > 0 && Math.abs(r - Math.round(r)) <= 6 / 60).length;
  expect(turn).toBeGreaterThan(100);
});

test('the still view tells the reading as drawing, table and text; the trainer’s does not give it away', () => {
  const told = sextantView('0°01.4′ off the arc')[DISPLAY]();
  expect(told['text/plain']).toContain('60′ − 58.6′ = 1.4′');
  expect(told['text/html']).toContain('Taken from 60′');
  const asked = sextantView('34°17.6′', { open: 'trainer' })[DISPLAY]();
  expect(`${String(asked['text/html'])}${asked['text/plain']}`).not.toContain('17.6');
  expect(() => sextantView('134°17.6′')).toThrow(/beyond it/);
  expect(() => sextantView('34 degres')).toThrow(/34 degres/);
});
