import { beforeAll, describe, expect, it } from 'vitest';
import type { SightLog } from '../../src/index.js';
import {
  passageQuality,
  simulatePassage,
  type Estimate,
  type PassageQuality,
} from '../../src/index.js';
import { judgeReadings } from '../../src/log/analysis/judged.js';
import { passageModel } from '../../src/log/analysis/passage-model.js';
import { passageData } from '../../src/views/passage/passage-data.js';
import { factorFigures } from '../../src/views/passage/passage-figures.js';
import { passageErrors } from '../../src/log/simulate/passage.js';

const TRUTH: Readonly<Record<string, number>> = {
  'observer A': passageErrors.observers.A.biasArcmin,
  'observer B': passageErrors.observers.B.biasArcmin,
  'instrument sextant 2': passageErrors.sextant2.arcErrorArcmin,
  'index drift sextant 1': passageErrors.sextant1.driftArcminPerDay,
  'index drift sextant 2': 0,
  'watch error ': 0,
  'watch rate ': passageErrors.watchRateSPerDay,
};
const holds = (e: Estimate, value: number) => e.low <= value && value <= e.high;

describe('the quality of a passage', () => {
  const { log, track, planted } = simulatePassage(20270504);
  let quality: PassageQuality;
  beforeAll(() => {
    quality = passageQuality(log.withTrack(track));
  });

  it('finds every planted error within its interval', () => {
    const { terms, leftOut } = quality.figures.model;
    expect(leftOut).toEqual([]);
    expect(terms.map((t) => `${t.kind} ${t.of}`)).toEqual(Object.keys(TRUTH));
    for (const t of terms) expect(holds(t.estimate, TRUTH[`${t.kind} ${t.of}`] ?? NaN)).toBe(true);
  });

  it('tells the observers’ scatter apart, and holds the planted one', () => {
    const scatter = quality.figures.model.observerScatter.map((s) => s.estimate);
    // Planted for a smooth sea, and growing by 12 % a step of the sea state: on the mean of the log 1.17 times as much.
    const rows = quality.figures.readings.filter((r) => !r.outlier).map((r) => r.row);
    ['A', 'B'].forEach((name, i) => {
      const own = rows.filter((r) => r.observer === name);
      const rough = own.map((r) => 1 + passageErrors.roughnessPerSea * ((r.seaState ?? 2) - 2));
      const factor = Math.sqrt(rough.reduce((s, v) => s + v * v, 0) / own.length);
      const planted = passageErrors.observers[name as 'A' | 'B'].scatterArcmin * factor;
      expect([name, holds(scatter[i] as Estimate, planted)]).toEqual([name, true]);
    });
    expect(scatter[0]?.high).toBeLessThan(scatter[1]?.low ?? NaN);
  });

  it('is drawn to one scale for all factors, nought among it, each plot named as its table', () => {
    const { factors, sections } = passageData(quality);
    const figures = factorFigures(factors);
    const axes = figures.map(({ layout }) => layout['xaxis'] as { range: number[] });
    expect(new Set(axes.map(({ range }) => range.join())).size).toBe(1);
    const [low, high] = axes[0]!.range as [number, number];
    expect(low).toBeLessThan(0);
    for (const { levels } of factors)
      for (const l of levels) {
        expect(l.low ?? l.mean).toBeGreaterThan(low);
        expect(l.high ?? l.mean).toBeLessThan(high);
      }
    const titles = figures.map(({ layout }) => (layout['title'] as { text: string }).text);
    const named = sections.map(({ title }) => title);
    for (const title of titles) expect(named).toContain(title.replace(/, the \d+ with .*/, ''));
    // More bodies were seen than a plot holds, and it says so.
    expect(titles).toContain('By body, the 14 with most readings');
  });

  it('sets aside the planted slips and no others, the right one among the names of each', () => {
    const slips = planted['slips'] as { utcMs: number; slip: string }[];
    const { outliers } = quality.figures;
    expect(outliers.map((o) => o.row.utcMs)).toEqual(slips.map((s) => s.utcMs));
    slips.forEach((s, i) => expect(outliers[i]?.slips.map((n) => n.slip)).toContain(s.slip));
    expect(quality.cleaned.rejected().numRows()).toBe(2 + slips.length);
    expect(quality.cleaned.numRows()).toBe(log.numRows());
  });

  it('azimuth gives the watch away: too low in the east, too high in the west', () => {
    const levels = quality.figures.factors.find((f) => f.factor === 'azimuth')?.levels;
    const at = (name: string) => levels?.find((l) => l.name === name)?.pooled;
    expect(at('E')?.high).toBeLessThan(at('W')?.low ?? NaN);
  });

  it('draws a body seen twice nearer to the common mean than one seen often', () => {
    const body = quality.figures.factors.find((f) => f.factor === 'body');
    const common = quality.figures.bias.value;
    const shrink = (n: (count: number) => boolean) => {
      const list = (body?.levels ?? []).filter(
        (l) => n(l.n) && Math.abs(l.bias.value - common) > 0.5,
      );
      const ratios = list.map((l) => (l.pooled.value - common) / (l.bias.value - common));
      return ratios.reduce((s, v) => s + v, 0) / ratios.length;
    };
    expect(shrink((n) => n <= 3)).toBeLessThan(shrink((n) => n >= 8));
  });

  it('regions hold the track as they say once the errors are taken off, and not before', () => {
    const { fixes, fixesCorrected } = quality.figures;
    expect(fixes.inside.n).toBe(47);
    expect(fixes.inside.high).toBeLessThan(0.95);
    expect(holds(fixesCorrected.inside, 0.95)).toBe(true);
    expect(fixesCorrected.medianMissNm).toBeLessThan(0.6 * fixes.medianMissNm);
  });

  it('lists the sights that moved their fixes most, and a control chart of the sessions', () => {
    const { influential, controlChart, sessions } = quality.figures;
    const moves = influential.map((s) => s.movesNm);
    expect(moves).toEqual([...moves].sort((a, b) => b - a));
    expect(controlChart?.points).toHaveLength(sessions.length);
    expect(sessions.reduce((s, m) => s + m.n, 0)).toBe(386);
  });

  it('is a report in words and tables', () => {
    expect(quality.report.map((s) => s.title)).toEqual([
      'The log',
      'What the sights say, all causes at once',
      'By observer',
      'By instrument',
      'By body',
      'By azimuth',
      'By altitude',
      'By sea',
      'Index, watch and control chart',
      'Sights that most moved their fixes',
      'Fixes against the track',
    ]);
    for (const { table } of quality.report)
      for (const row of table?.rows ?? []) expect(row).toHaveLength(table?.heads.length ?? -1);
    expect(quality.toText()).not.toMatch(/NaN|undefined|null/);
  });

  it('works without a track too, against the fixes, and says so', () => {
    const own = passageQuality(log);
    expect(own.toText()).toMatch(/compared with the fix of the round/);
    expect(own.toText()).not.toMatch(/NaN|undefined/);
    expect(own.figures.fixes.inside.n).toBe(0);
  });

  it('one observer with one sextant: what cannot be told is left out and named', () => {
    const alone = log.withTrack(track).filter('d => d.observer === "A"').reify();
    const one = alone.derive({ instrument: () => 'sextant' }) as SightLog;
    const { terms } = passageModel(judgeReadings(one).readings);
    expect(terms.map((t) => t.kind)).toEqual([
      'observer',
      'index drift',
      'watch error',
      'watch rate',
    ]);
    const tied = log
      .withTrack(track)
      .filter('d => (d.observer === "A") === (d.instrument === "sextant 1")')
      .reify();
    expect(passageModel(judgeReadings(tied).readings).leftOut).toEqual(['instrument sextant 2']);
  });

  it('of two days it says that they are too few to tell a drift, not by how much', () => {
    const two = log.withTrack(track).filter("d => d.round < '2027-05-06'").reify();
    const text = passageQuality(two).toText();
    expect(text).toMatch(/Too few days to tell whether sextant [12] reads more and more: anything/);
    expect(text).not.toMatch(/reads (?:more and more|less and less), by/);
  });

  it('refuses a handful of readings', () => {
    expect(() => passageQuality(log.slice(0, 5))).toThrow(/twelve/);
  });
});

describe('the intervals of the passage model keep their promise', () => {
  it('hold the planted errors about 95 times in 100 over many passages', () => {
    const names = Object.keys(TRUTH);
    const inside = new Map(names.map((n) => [n, 0]));
    const runs = 40;
    for (let seed = 1; seed <= runs; seed++) {
      const { log, track } = simulatePassage(seed);
      const { readings } = judgeReadings(log.withTrack(track));
      const model = passageModel(readings.filter((r) => !r.outlier));
      for (const t of model.terms) {
        const name = `${t.kind} ${t.of}`;
        if (holds(t.estimate, TRUTH[name] ?? NaN)) inside.set(name, (inside.get(name) ?? 0) + 1);
      }
    }
    const total = [...inside.values()].reduce((s, v) => s + v, 0);
    // 280 intervals, p 0.95, those of one passage partly dependent (twice the variance): mean 266, sigma 5.2.
    expect(total).toBeGreaterThanOrEqual(251);
    // Each term, n 40: 34 or more with probability 0.995.
    for (const count of inside.values()) expect(count).toBeGreaterThanOrEqual(34);
  });
});
