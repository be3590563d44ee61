import { expect, test } from 'vitest';
import { Angle, angle, Duration, fix, knots, position } from '../../src/index.js';
import { checkChartData, fixInputs, type ChartData } from '../../src/views/chart/chart-inputs.js';
import { chartSvg, frameFor } from '../../src/views/chart/chart-svg.js';
import { firstWindow } from '../../src/views/chart/chart-html.js';
import { ChartModel } from '../../src/views/chart/chart-model.js';
import { extent } from '../../src/views/chart/window.js';
import { chartBundle } from '../../src/views/chart/chart-view.js';
import { MIME } from '../../src/views/mime.js';
import { svgMarkup } from '../../src/views/svg/svg-node.js';
import { sampleFix, sampleRound } from '../support/sample-fix.js';

const modelOf = (bundle: Record<string, unknown>): ChartModel =>
  ChartModel.from(checkChartData(JSON.parse(JSON.stringify(bundle[MIME.chart]))));

test('the chart works out the fix again exactly from what it carries', () => {
  const original = sampleFix();
  const again = modelOf(chartBundle(original)).with({}).fix;
  expect(again?.position.latDeg).toBeCloseTo(original.position.latDeg, 12);
  expect(again?.position.lonDeg).toBeCloseTo(original.position.lonDeg, 12);
  expect(again?.region().semiMajor.metres).toBeCloseTo(original.region().semiMajor.metres, 6);
});

test('sights off, course, speed, sigma and level change the fix as fix() does with the same', () => {
  const model = ChartModel.from(fixInputs(sampleFix()));
  const off = model.observations[2]!.key;
  const changed = model.with({
    off: [off],
    courseDeg: 20,
    speedKn: 8,
    sigmaArcmin: 1.3,
    level: 0.9,
  });
  const rest = sampleRound().filter((_, i) => i !== 2);
  const expected = fix(rest, {
    dr: position('18°44.6′ S', '000°27.1′ W'),
    at: sampleFix().instant,
    course: angle('020°'),
    speed: knots(8),
    sigma: Angle.arcminutes(1.3),
    level: 0.9,
  });
  expect(changed.fix?.position.latDeg).toBeCloseTo(expected.position.latDeg, 9);
  expect(changed.fix?.region().semiMajor.metres).toBeCloseTo(expected.region().semiMajor.metres, 3);
  expect(changed.keys).not.toContain(off);
});

test('without any sight there is no fix, and the chart says so and still draws the lines', () => {
  const model = ChartModel.from(fixInputs(sampleFix()));
  const figures = model.with({ off: model.observations.map(({ key }) => key) });
  expect(figures.fix).toBeUndefined();
  expect(figures.problem).toMatch(/at least one sight/);
  expect(figures.scene.lines).toHaveLength(4);
  expect(figures.scene.lines.every((line) => line.isOff)).toBe(true);
});

test('the still chart holds every body and no script, whatever a body is called', () => {
  const round = sampleRound().map((o) => ({ ...o, body: '<script>alert(1)</script>' }));
  const html = chartBundle(fix(round))['text/html'] as string;
  expect(html).not.toContain('<script');
  expect(html).toContain('&lt;script&gt;');
});

test('data of a fix that cannot be are refused', () => {
  const data = JSON.parse(JSON.stringify(chartBundle(sampleFix())[MIME.chart])) as ChartData;
  type Raw = { observations: Record<string, unknown>[]; options: Record<string, unknown> };
  const broken = (change: (d: Raw) => void) => {
    const copy = JSON.parse(JSON.stringify(data)) as Raw;
    change(copy);
    return () => ChartModel.from(checkChartData(copy));
  };
  expect(broken((d) => (d.observations[0] = {}))).toThrow(/cannot be read/);
  expect(broken((d) => (d.observations[0]!['gha'] = 'x'))).toThrow(/gha/);
  expect(broken((d) => (d.options['level'] = 7))).toThrow(/level|probability/i);
  expect(broken((d) => delete d.options['at'])).toThrow(/time/);
});

test('a single line and parallel lines give an estimated position, drawn as a square', () => {
  const round = sampleRound();
  const dr = position('18°44.6′ S', '000°27.1′ W');
  const cross = fix(round, { dr });
  const single = fix(round.slice(0, 1), { dr });
  const parallel = fix(
    [round[0]!, round[0]!].map((o, i) => ({ ...o, body: `${o.body} ${i}` })),
    {
      dr,
    },
  );
  expect([cross, single, parallel].map((f) => f.kind)).toEqual([
    'fix',
    'estimated position',
    'estimated position',
  ]);
  for (const [found, word, symbol] of [
    [cross, 'Fix, 14 May 2027', 'circle-open-dot'],
    [single, 'Estimated position, 14 May 2027', 'square-open-dot'],
  ] as const) {
    const bundle = chartBundle(found);
    expect(bundle['text/html']).toContain(word);
    expect((bundle['text/html'] as string).includes('ch-ep')).toBe(found === single);
    expect(JSON.stringify(bundle[MIME.plotly])).toContain(symbol);
  }
});

test('a round with a wrong star shows its lines and the DR, though the fix lies degrees away from both', () => {
  const wrong = sampleRound().map((o, i) =>
    i === 2 ? { ...o, observed: o.observed.plus(Angle.degrees(9)) } : o,
  );
  const dr = position('18°44.6′ S', '000°27.1′ W');
  const drawn = (round: typeof wrong) => {
    const scene = ChartModel.from(fixInputs(fix(round, { dr }))).with({}).scene;
    const w = firstWindow(scene, frameFor(640, 480));
    const { southDeg, northDeg } = extent(w);
    const markup = svgMarkup(chartSvg(scene, w, { width: 640, height: 480 }));
    return {
      holdsDr: southDeg < dr.latDeg && dr.latDeg < northDeg,
      hasLines: markup.includes('data-line='),
    };
  };
  expect(drawn(wrong)).toEqual({ holdsDr: true, hasLines: true });
  expect(drawn(sampleRound()).hasLines).toBe(true);
});

test('lines of one body that crowd share a label with their number and times; others keep theirs', () => {
  const [one, , two] = sampleRound();
  const later = (o: typeof one, minutes: number) => ({
    ...o!,
    instant: o!.instant.plus(Duration.minutes(minutes)),
  });
  const labels = (observations: readonly (typeof one)[]) => {
    const round = observations.map((o) => o!);
    const scene = ChartModel.from(fixInputs(fix(round))).with({}).scene;
    const frame = frameFor(640, 480);
    const markup = svgMarkup(
      chartSvg(scene, firstWindow(scene, frame), { width: 640, height: 480 }),
    );
    return [...markup.matchAll(/<g transform="translate[^>]*rotate.*?<\/g>/g)].map(([g]) =>
      [...g.matchAll(/<text[^>]*>([^<]*)/g)].map((m) => m[1]).join(' '),
    );
  };
  /** To the nearest minute: 05:29:40 stands as 05:30. */
  const time = (o: typeof one) => {
    const seconds = Math.round(o!.instant.epochMs / 60_000) * 60;
    return new Date(seconds * 1000).toISOString().slice(11, 16);
  };
  const crowd = Array.from({ length: 5 }, (_, i) => later(one, i * 0.2));
  const found = labels([...crowd, two]);
  expect(found).toContain(`${one!.body} ×5 ${time(one)}–${time(crowd[4])}`);
  expect(found.filter((text) => text.startsWith(one!.body))).toHaveLength(1);
  expect(found).toContain(`${two!.body} ${time(two)}`);
  expect(labels([one, later(one, 1), two]).filter((text) => text.includes('×'))).toEqual([]);
});
