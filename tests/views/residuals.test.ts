import fs from 'node:fs';
import { expect, test } from 'vitest';
import { Angle, Duration, fix, SightLog, withRejections } from '../../src/index.js';
import { fixInputs } from '../../src/views/chart/chart-inputs.js';
import { ChartModel } from '../../src/views/chart/chart-model.js';
import {
  checkResidualsData,
  fixPoints,
  fixResidualsData,
} from '../../src/views/residuals/residual-data.js';
import {
  residualFigure,
  runBodies,
  runFigure,
  runOf,
} from '../../src/views/residuals/residual-figure.js';
import { sampleFix, sampleRound } from '../support/sample-fix.js';

const data = checkResidualsData(JSON.parse(JSON.stringify(fixResidualsData(sampleFix(12)))));

test('the residuals of a fix are those of the fix', () => {
  const residuals = sampleFix(12).residuals.map((r) => r.residual.arcminutes);
  data.points.forEach((p, i) => expect(p.residualArcmin).toBeCloseTo(residuals[i] ?? NaN, 9));
});

test('a rejected sight is compared with the fix of the others', () => {
  const model = ChartModel.from(fixInputs(sampleFix(12)));
  const key = data.points[11]!.key;
  const point = fixPoints(model, [key]).find((p) => p.key === key)!;
  const others = fix(sampleRound(11), { dr: sampleFix(12).dr!, at: sampleFix(12).instant });
  expect(point.isAccepted).toBe(false);
  // Without itself in the fix a sight lies farther off than with itself in it.
  expect(Math.abs(point.residualArcmin)).toBeGreaterThan(Math.abs(data.points[11]!.residualArcmin));
  expect(model.with({ off: [key] }).fix?.position.latDeg).toBeCloseTo(others.position.latDeg, 9);
});

test('ticks of altitude are whole degrees or minutes, few enough to read, and hold all points', () => {
  for (const count of [12, 4, 1]) {
    const points = data.points.slice(0, count);
    const { layout } = residualFigure(points, { axis: 'altitude', isStandardised: false });
    const { tickvals, ticktext } = layout['xaxis'] as { tickvals: number[]; ticktext: string[] };
    expect(tickvals.length).toBeLessThanOrEqual(10);
    expect(Math.min(...points.map((p) => p.altitudeDeg))).toBeGreaterThanOrEqual(tickvals[0]!);
    expect(Math.max(...points.map((p) => p.altitudeDeg))).toBeLessThanOrEqual(tickvals.at(-1)!);
    tickvals.forEach((v, i) => {
      const [, degrees, minutes = '0'] = /^(\d+)°(?:(\d\d)′)?$/.exec(ticktext[i]!)!;
      expect(v).toBeCloseTo(Number(degrees) + Number(minutes) / 60, 9);
    });
  }
});

test('the figure has its axes named with their units and a point for every sight', () => {
  for (const axis of ['time', 'altitude', 'azimuth', 'observer'] as const) {
    const { data: traces, layout } = residualFigure(data.points, { axis, isStandardised: false });
    const count = traces.reduce((sum, t) => sum + (t['x'] as unknown[]).length, 0);
    expect(count).toBe(12);
    expect(JSON.stringify(layout['yaxis'])).toContain('minutes of arc');
    expect(JSON.stringify(layout['xaxis'])).toMatch(/UTC|degrees|Observer/);
  }
});

test('a run is shown against the computed slope: what a sight is off stays, the mean slope goes', () => {
  const [first] = sampleRound(1);
  const round = [0, 60, 120, 180, 240].map((seconds, i) => ({
    ...first!,
    instant: first!.instant.plus(Duration.seconds(seconds)),
    gha: first!.gha.plus(Angle.degrees((15.041 * seconds) / 3600)),
    observed: first!.observed.plus(Angle.arcminutes(i === 2 ? 3 : 0)),
  }));
  const { points } = fixResidualsData(fix([...round, ...sampleRound(4)]));
  expect(runBodies(points)).toEqual(['Achernar']);
  const [line, observed] = runFigure(runOf(points, 'Achernar')).data;
  const y = line?.['y'] as number[];
  expect(y[0]).toBeCloseTo(0, 9);
  expect(y.at(-1)).toBeCloseTo(0, 9);
  const off = (observed?.['y'] as number[]).map((v, i) => v - y[i]!);
  const residuals = runOf(points, 'Achernar').map((p) => (p.altitudeDeg - p.computedDeg) * 60);
  off.forEach((v, i) => expect(v).toBeCloseTo(residuals[i]!, 9));
});

test('what was rejected and restored in a view of a log is so in the log', () => {
  const text = fs.readFileSync('data/demo/practice-afternoon.csv', 'utf8');
  const log = SightLog.fromCsv(text);
  const [first, second] = log.rows();
  const before = log.reject((row) => row.line === second!.line, 'entered twice');
  const key = `${first!.body} ${new Date(first!.utcMs).toISOString().slice(0, 19).replace('T', ' ')} UTC`;
  const after = withRejections(before, { rejected: [{ key, reason: 'hazy' }] });
  expect(
    after
      .rejected()
      .rows()
      .map((r) => [r.line, r.reason]),
  ).toEqual([[first!.line, 'hazy']]);
  expect(after.numRows()).toBe(log.numRows());
});
