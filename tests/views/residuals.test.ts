import fs from 'node:fs';
import { expect, test } from 'vitest';
import {
  Angle,
  Duration,
  fix,
  meridianMaximum,
  SightLog,
  withRejections,
} from '../../src/index.js';
import { fixInputs } from '../../src/views/chart/chart-inputs.js';
import { ChartModel } from '../../src/views/chart/chart-model.js';
import {
  checkResidualsData,
  fixPoints,
  fixResidualsData,
} from '../../src/views/residuals/residual-data.js';
import { MIME } from '../../src/views/mime.js';
import { residualFigure } from '../../src/views/residuals/residual-figure.js';
import {
  culminationOf,
  runBodies,
  runFigure,
  runOf,
} from '../../src/views/residuals/run-figure.js';
import { residualColumns } from '../../src/views/residuals/residual-text.js';
import { residualsBundle } from '../../src/views/residuals/residual-view.js';
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

test('the table has a column of observers only where one was named', () => {
  const points = data.points.map((p) => ({ ...p, observer: 'A' }));
  const heads = (p: typeof points) => residualColumns(p).map(({ head }) => head);
  expect(heads(points)).toContain('Observer');
  expect(heads(points.map((p) => ({ ...p, observer: '' })))).toEqual(
    heads(points).filter((head) => head !== 'Observer'),
  );
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

const noon = () =>
  SightLog.fromCsv(fs.readFileSync('data/demo/noon.csv', 'utf8')).round('2027-05-09 noon');

test('a run over noon shows the altitudes as they are, the greatest marked where the parabola of the meridian puts it', () => {
  const sights = noon();
  const round = fix(sights);
  const bundle = residualsBundle(round, undefined, { by: 'run' });
  const data = checkResidualsData(bundle['application/vnd.cocked-hat.residuals.v1+json']);
  expect(data.laidOutBy).toBe('run Sun');
  const run = runOf(data.points, 'Sun');
  const top = culminationOf(run)!;
  // Transit is when the GHA is the west longitude of the vessel then; the maximum follows by b/2a (tests/published checks a).
  const [near] = round.lines
    .map((line) => line.observation)
    .sort(
      (a, b) => Math.abs(a.instant.epochMs - top.timeMs) - Math.abs(b.instant.epochMs - top.timeMs),
    );
  const { latDeg } = round.position;
  const northKnots = near!.speed!.knots * Math.cos(near!.course!.radians);
  const lag = meridianMaximum(latDeg, near!.declination.degrees, 0.67 / 60, northKnots).interval
    .seconds;
  const elapsedHours = (top.timeMs - round.instant.epochMs) / 3_600_000;
  const eastKnots =
    (near!.speed!.knots * Math.sin(near!.course!.radians)) / Math.cos((latDeg * Math.PI) / 180);
  const lonDeg = round.position.lonDeg + (eastKnots * elapsedHours) / 60;
  const hourAngle = near!.gha.degrees + lonDeg - (near!.gha.degrees > 180 ? 360 : 0);
  const transitMs = near!.instant.epochMs - (hourAngle / (15 - eastKnots / -60)) * 3_600_000;
  // Three seconds: the parabola takes the Sun's rate as steady, and computed points two minutes apart bend a little more.
  expect(Math.abs(top.timeMs - transitMs - lag * 1000)).toBeLessThan(3000);
  const figure = runFigure(run);
  expect(figure.data[1]?.['y']).toEqual(run.map((p) => p.altitudeDeg));
  expect(JSON.stringify(figure.layout['annotations'])).toContain('greatest 5');
  expect(bundle['application/vnd.plotly.v1+json']).toEqual(figure);
});

test('a run that does not pass the meridian has no greatest altitude; a layout that is not known is named', () => {
  const round = fix(noon().slice(0, 5));
  expect(culminationOf(fixResidualsData(round).points)).toBeUndefined();
  expect(() => residualsBundle(round, undefined, { by: 'noon' as 'run' })).toThrow(
    /by time, altitude, azimuth, body, observer, run, not by 'noon'/,
  );
  expect(() => residualsBundle(sampleFix(4), undefined, { by: 'run' })).toThrow(
    /three sights of one body/,
  );
});

test('what lies beyond the edge is said inside the plot, where no button or legend stands', () => {
  const [first, ...rest] = [...data.points, ...data.points];
  const points = [{ ...first!, residualArcmin: 60 }, ...rest];
  const { layout } = residualFigure(points, { axis: 'time', isStandardised: false });
  const [note] = layout['annotations'] as { x: number; y: number; text: string }[];
  expect(note).toMatchObject({ x: 0, y: 0, xanchor: 'left', yanchor: 'bottom' });
  expect(note?.text).toMatch(/^1 beyond the edge/);
});

test('a log is compared with the track or the known position, with their article', () => {
  const log = SightLog.fromCsv(fs.readFileSync('data/demo/practice-afternoon.csv', 'utf8'));
  const { [MIME.residuals]: shown } = residualsBundle(log);
  expect((shown as { reference: string }).reference).toBe('the known position');
});
