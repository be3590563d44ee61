import fs from 'node:fs';
import { expect, test } from 'vitest';
import { fix, SightLog } from '../../src/index.js';
import type { PlotlyFigure } from '../../src/views/chart/chart-figure.js';
import { logResidualsData, fixResidualsData } from '../../src/views/residuals/residual-data.js';
import { laidOutFigure } from '../../src/views/residuals/residual-figure.js';
import { controlFigure, factorFigures } from '../../src/views/passage/passage-figures.js';
import { stillAxis } from '../../src/views/svg/still-axis.js';
import { stillPlot } from '../../src/views/svg/still-plot.js';
import { svgMarkup } from '../../src/views/svg/svg-node.js';

const read = (name: string) => SightLog.fromCsv(fs.readFileSync(`data/demo/${name}.csv`, 'utf8'));
const drawn = (figure: PlotlyFigure, width = 700) => svgMarkup(stillPlot(figure, width));
const count = (markup: string, what: RegExp) => markup.match(what)?.length ?? 0;

test('every residual that the axis holds is a point, and those beyond are counted', () => {
  const { points } = logResidualsData(read('winter-class'));
  const markup = drawn(laidOutFigure(points, 'time', false));
  // One point in the legend for each of two observers: A round, B square. One reading lies half a degree off.
  expect(count(markup, /<circle /g)).toBe(12 - 1 + 1);
  expect(count(markup, /<path [^>]*Z"/g)).toBe(12 + 1);
  expect(markup).toContain('1 beyond the edge: in the table<');
  expect(markup).toContain('Residual, minutes of arc');
  expect(markup).toContain('3 Jul');
});

test('every layout of the residuals can be drawn, without a figure that is none', () => {
  const { points } = logResidualsData(read('winter-class'));
  for (const layout of ['time', 'altitude', 'azimuth', 'body', 'observer', 'run Sun'] as const)
    for (const width of [260, 900])
      expect(drawn(laidOutFigure(points, layout, false), width)).not.toMatch(
        /NaN|undefined|Infinity/,
      );
  const few = fixResidualsData(fix(read('noon').round('2027-05-09 noon').slice(5, 18)));
  expect(drawn(laidOutFigure(few.points, 'run Sun', false))).toContain('greatest 52°14.1′');
});

test('a passage is drawn: sessions between their limits, levels with their intervals', () => {
  const control = {
    centre: 0.4,
    low: -3,
    high: 3.9,
    points: [1, 2, 3].map((i) => ({ timeMs: i * 864e5, label: `s${i}`, mean: i / 2, signals: [] })),
  };
  const markup = drawn(controlFigure(control));
  expect(count(markup, /stroke-dasharray="7 5"/g)).toBe(2);
  expect(markup).toContain('Limits −3.0′ and +3.9′');
  const levels = [
    { name: 'A', count: 20, mean: 1, low: 0.5, high: 1.5 },
    { name: 'B', count: 20, mean: -1, low: -1.5, high: -0.5 },
  ];
  const [figure] = factorFigures([{ factor: 'observer', levels }]);
  const factor = drawn(figure!);
  expect(count(factor, /<circle /g)).toBe(2);
  expect(factor).toContain('By observer');
  expect(factor.indexOf('A (20)')).toBeLessThan(factor.indexOf('B (20)'));
});

test('ticks are round figures, few enough to read, in the unit of the axis', () => {
  const { ticks } = stillAxis({ ticksuffix: '′' }, [-1.3, 2.4], 6);
  expect(ticks.map((t) => t.label)).toEqual(['−1′', '0′', '1′', '2′']);
  const hours = stillAxis({ type: 'date' }, ['2027-05-06 08:00:00', '2027-05-06 14:00:00'], 6);
  expect(hours.ticks.map((t) => t.label)).toEqual(['08:00\n6 May', '10:00', '12:00', '14:00']);
  expect(hours.at('2027-05-06 11:00:00')).toBeCloseTo(0.5, 9);
  expect(hours.at('2027-05-07 11:00:00')).toBeUndefined();
});
