import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/fix/random.js';
import {
  controlChart,
  durbinWatson,
  fractionEstimate,
  lineFit,
  meanEstimate,
  mixedModel,
  normalityCheck,
  robustScores,
  runsCheck,
  scatterEstimate,
} from '../../src/log/statistics/index.js';
import { askPython, pythonPackageVersion } from '../support/python.js';

/**
 * Second opinion: scipy and statsmodels, run live from the environment of the tests on the same numbers
 * (versions pinned in tests/requirements.txt). Tolerance 1e-6 relative unless a reason stands beside it: jstat's inverse
 * distributions are good to 1e-8.
 */
const close = (ours: number, theirs: number, relative = 1e-6) =>
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(relative * Math.max(1e-3, Math.abs(theirs)));

const random = seededRandom(20270503);
const sample = Array.from({ length: 37 }, (_, i) => 0.9 + 0.6 * random.normal() + 0.004 * i);
const times = sample.map((_, i) => i * 1.7 + random.uniform());

describe('statistics of a sight log agree with scipy and statsmodels', () => {
  it('runs against the versions that are pinned', () => {
    expect(pythonPackageVersion('scipy')).toBe('1.17.1');
    expect(pythonPackageVersion('statsmodels')).toBe('0.15.0');
  });

  it('mean, scatter and fraction with their intervals', async () => {
    const theirs = await askPython<Record<string, number[]>>(
      `
from scipy import stats
import numpy as np
x = np.array(given)
n = len(x)
t = stats.ttest_1samp(x, 0).confidence_interval(0.95)
s = x.std(ddof=1)
chi = stats.chi2.ppf([0.975, 0.025], n - 1)
b = stats.binomtest(21, 23).proportion_ci(0.95, 'exact')
b0 = stats.binomtest(0, 9).proportion_ci(0.9, 'exact')
answer = {
  'mean': [x.mean(), t.low, t.high],
  'sd': [s, *(s * np.sqrt((n - 1) / chi))],
  'fraction': [21 / 23, b.low, b.high],
  'none': [0.0, b0.low, b0.high],
}`,
      sample,
    );
    const ours = {
      mean: meanEstimate(sample),
      sd: scatterEstimate(sample),
      fraction: fractionEstimate(21, 23),
      none: fractionEstimate(0, 9, 0.9),
    };
    let compared = 0;
    for (const [name, e] of Object.entries(ours))
      [e.value, e.low, e.high].forEach((v, i) => {
        close(v, theirs[name]?.[i] ?? NaN);
        compared++;
      });
    expect(compared).toBe(12);
  });

  it('straight line: slope, intercept, intervals, probability', async () => {
    const theirs = await askPython<{
      params: number[];
      ci: number[][];
      p: number;
      scatter: number;
    }>(
      `
import numpy as np, statsmodels.api as sm
x, y = map(np.array, given)
f = sm.OLS(y, sm.add_constant(x)).fit()
answer = {'params': f.params.tolist(), 'ci': f.conf_int().tolist(), 'p': float(f.pvalues[1]), 'scatter': float(np.sqrt(f.mse_resid))}`,
      [times, sample],
    );
    const fit = lineFit(times, sample);
    expect(fit).not.toBeNull();
    if (!fit) return;
    close(fit.intercept.value, theirs.params[0] ?? NaN);
    close(fit.slope.value, theirs.params[1] ?? NaN);
    close(fit.intercept.low, theirs.ci[0]?.[0] ?? NaN);
    close(fit.intercept.high, theirs.ci[0]?.[1] ?? NaN);
    close(fit.slope.low, theirs.ci[1]?.[0] ?? NaN);
    close(fit.slope.high, theirs.ci[1]?.[1] ?? NaN);
    close(fit.pValue, theirs.p);
    close(fit.scatter, theirs.scatter);
  });

  it('runs, normality, Durbin–Watson and robust scores', async () => {
    const theirs = await askPython<Record<string, number | number[]>>(
      `
import numpy as np
from scipy import stats
from statsmodels.stats.diagnostic import normal_ad
from statsmodels.stats.stattools import durbin_watson
from statsmodels.sandbox.stats.runs import runstest_1samp
x = np.array(given)
z, p = runstest_1samp(x, cutoff='median', correction=False)
ad, adp = normal_ad(x)
n = len(x)
answer = {'z': float(z), 'p': float(p), 'ad': float(ad * (1 + .75/n + 2.25/n**2)), 'adp': float(adp),
  'dw': float(durbin_watson(x - x.mean())),
  'scores': ((x - np.median(x)) / (1.4826 * stats.median_abs_deviation(x))).tolist()}`,
      sample,
    );
    const runs = runsCheck(sample);
    const ad = normalityCheck(sample);
    close(runs?.statistic ?? NaN, theirs['z'] as number);
    close(runs?.pValue ?? NaN, theirs['p'] as number);
    close(ad?.statistic ?? NaN, theirs['ad'] as number);
    close(ad?.pValue ?? NaN, theirs['adp'] as number);
    const middle = sample.reduce((s, v) => s + v, 0) / sample.length;
    close(durbinWatson(sample.map((v) => v - middle)), theirs['dw'] as number);
    robustScores(sample, 0).forEach((v, i) => close(v, (theirs['scores'] as number[])[i] ?? NaN));
  });

  it.each([
    ['plain normal', (z: number) => z],
    ['nearly even', (_z: number, i: number) => Math.sin(i * 1.3)],
    ['long-tailed', (z: number) => z ** 3],
    ['skew', (z: number) => Math.exp(z)],
  ])('normality of %s values over the whole range of the probability', async (_, shape) => {
    const r = seededRandom(11);
    const values = Array.from({ length: 60 }, (__, i) => shape(r.normal(), i));
    const [stat, p] = await askPython<[number, number]>(
      `
import numpy as np
from statsmodels.stats.diagnostic import normal_ad
n = len(given)
a, p = normal_ad(np.array(given))
answer = [float(a * (1 + .75/n + 2.25/n**2)), float(p)]`,
      values,
    );
    const ours = normalityCheck(values);
    close(ours?.statistic ?? NaN, stat);
    close(ours?.pValue ?? NaN, p, 1e-5);
  });
});

describe('the mixed model agrees with statsmodels', () => {
  const r = seededRandom(5);
  const bodies = ['Sun', 'Canopus', 'Vega', 'Altair', 'Jupiter', 'Spica'];
  const sessions = Array.from({ length: 24 }, (_, i) => `session ${i}`);
  const bodyEffect = new Map(bodies.map((b) => [b, 0.4 * r.normal()]));
  const sessionEffect = new Map(sessions.map((s) => [s, 0.3 * r.normal()]));
  const rows = Array.from({ length: 160 }, (_, i) => {
    const body = bodies[Math.min(5, Math.floor(r.uniform() ** 2 * 6))] as string;
    const session = sessions[i % 24] as string;
    const day = i / 10;
    const effects = (bodyEffect.get(body) ?? 0) + (sessionEffect.get(session) ?? 0);
    return { body, session, day, y: 0.3 + 0.05 * day + effects + 0.6 * r.normal() };
  });
  const y = rows.map((w) => w.y);
  const fixed = { level: rows.map(() => 1), day: rows.map((w) => w.day) };

  it('with one grouping: terms, standard errors, variances and predicted effects', async () => {
    const theirs = await askPython<{
      params: number[];
      bse: number[];
      between: number;
      scale: number;
      effects: Record<string, number>;
      se: Record<string, number>;
    }>(
      `
import numpy as np, pandas as pd, statsmodels.api as sm
d = pd.DataFrame(given)
f = sm.MixedLM(d.y, sm.add_constant(d[['day']]), groups=d.body).fit(reml=True, method='powell', xtol=1e-12, ftol=1e-14)
re = f.random_effects
answer = {'params': f.fe_params.tolist(), 'bse': f.bse_fe.tolist(), 'between': float(np.sqrt(f.cov_re.iloc[0, 0])),
  'scale': float(np.sqrt(f.scale)), 'effects': {k: float(v.iloc[0]) for k, v in re.items()}, 'se': {}}`,
      rows,
    );
    const ours = mixedModel({ y, fixed, random: { body: rows.map((w) => w.body) } });
    // statsmodels maximises by a general search: 1e-3 on variances is what its own methods differ by.
    close(ours.sigmaBetween['body'] ?? NaN, theirs.between, 2e-3);
    close(ours.sigma, theirs.scale, 2e-4);
    close(ours.fixed['level']?.value ?? NaN, theirs.params[0] ?? NaN, 1e-3);
    close(ours.fixed['day']?.value ?? NaN, theirs.params[1] ?? NaN, 1e-3);
    ours.covariance.forEach((row, i) =>
      close(Math.sqrt(row[i] ?? NaN), theirs.bse[i] ?? NaN, 2e-3),
    );
    for (const body of bodies)
      close(ours.effects['body']?.get(body)?.value ?? NaN, theirs.effects[body] ?? NaN, 2e-3);
  });

  it('level effects and their sums with the common term have the prediction variance of the dense formula', async () => {
    const ours = mixedModel({ y, fixed, random: { body: rows.map((w) => w.body) } });
    const ratio = (ours.sigmaBetween['body'] ?? NaN) ** 2 / ours.sigma ** 2;
    const theirs = await askPython<Record<string, [number, number]>>(
      `
import numpy as np, pandas as pd
d = pd.DataFrame(given['rows']); s2, ratio = given['s2'], given['ratio']
y = d.y.values; X = np.column_stack([np.ones(len(d)), d.day.values])
levels = given['bodies']; Z = np.array([[float(b == l) for l in levels] for b in d.body])
V = s2 * (np.eye(len(d)) + ratio * Z @ Z.T); G = s2 * ratio * np.eye(len(levels)); Vi = np.linalg.inv(V)
C = np.linalg.inv(X.T @ Vi @ X); beta = C @ X.T @ Vi @ y; u = G @ Z.T @ Vi @ (y - X @ beta)
P = Vi - Vi @ X @ C @ X.T @ Vi
pev = G - G @ Z.T @ P @ Z @ G; cross = -C @ X.T @ Vi @ Z @ G
answer = {l: [float(beta[0] + u[i]), float(np.sqrt(C[0, 0] + pev[i, i] + 2 * cross[0, i]))] for i, l in enumerate(levels)}`,
      { rows, bodies, s2: ours.sigma ** 2, ratio },
    );
    for (const body of bodies) {
      const sum = ours.sum('level', 'body', body);
      const [value, error] = theirs[body] as [number, number];
      close(sum.value, value);
      // 1.959964 is the 97.5 % point of the normal distribution.
      close((sum.high - sum.low) / 2 / 1.959963985, error);
    }
  });

  it('with two crossed groupings: terms and variances', async () => {
    const theirs = await askPython<{
      params: number[];
      vc: number[];
      names: string[];
      scale: number;
    }>(
      `
import numpy as np, pandas as pd, statsmodels.api as sm
d = pd.DataFrame(given)
d['one'] = 1
m = sm.MixedLM.from_formula('y ~ day', d, groups='one', re_formula='0', vc_formula={'body': '0 + C(body)', 'session': '0 + C(session)'})
f = m.fit(reml=True, method='powell', xtol=1e-10, ftol=1e-12)
answer = {'params': f.fe_params.tolist(), 'vc': np.sqrt(f.vcomp).tolist(), 'names': list(m.exog_vc.names), 'scale': float(np.sqrt(f.scale))}`,
      rows,
    );
    const random = { body: rows.map((w) => w.body), session: rows.map((w) => w.session) };
    const ours = mixedModel({ y, fixed, random });
    theirs.names.forEach((name, i) =>
      close(ours.sigmaBetween[name] ?? NaN, theirs.vc[i] ?? NaN, 5e-3),
    );
    close(ours.sigma, theirs.scale, 1e-3);
    close(ours.fixed['day']?.value ?? NaN, theirs.params[1] ?? NaN, 5e-3);
  });

  it('without groupings it is weighted least squares', async () => {
    const weights = rows.map((_, i) => 0.5 + (i % 4));
    const theirs = await askPython<{ params: number[]; bse: number[]; ci: number[][] }>(
      `
import numpy as np, pandas as pd, statsmodels.api as sm
d = pd.DataFrame(given['rows'])
f = sm.WLS(d.y, sm.add_constant(d[['day']]), weights=given['weights']).fit()
answer = {'params': f.params.tolist(), 'bse': f.bse.tolist(), 'ci': f.conf_int().values.tolist()}`,
      { rows, weights },
    );
    const ours = mixedModel({ y, fixed, random: {}, weights });
    ['level', 'day'].forEach((name, i) => {
      close(ours.fixed[name]?.value ?? NaN, theirs.params[i] ?? NaN);
      close(ours.fixed[name]?.low ?? NaN, theirs.ci[i]?.[0] ?? NaN);
      close(ours.fixed[name]?.high ?? NaN, theirs.ci[i]?.[1] ?? NaN);
    });
  });

  it('refuses terms that depend on each other', () => {
    const twice = { a: y.map(() => 1), b: y.map(() => 2) };
    expect(() => mixedModel({ y, fixed: twice, random: {} })).toThrow(/depend on each other/);
  });
});

describe('the control chart', () => {
  /**
   * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, individuals chart: flow rates of ten batches and the
   * printed limits. From memory; recomputed here from the printed data: mean moving range 1.8778, centre 50.81.
   */
  const flow = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

  it('has the printed centre and limits', () => {
    const chart = controlChart(flow);
    expect(chart?.centre).toBeCloseTo(50.81, 2);
    expect(chart?.high).toBeCloseTo(55.8041, 3);
    expect(chart?.low).toBeCloseTo(45.8159, 3);
    expect(chart?.points.flatMap((p) => p.signals)).toEqual([]);
  });

  it('names a point beyond the limits, nine on one side, six rising', () => {
    const signals = (values: number[]) => controlChart(values, 0)?.points.at(-1)?.signals;
    expect(signals([0.1, -0.1, 0.1, -0.1, 0.1, -0.1, 2])).toContain(
      'beyond three standard deviations',
    );
    expect(signals([1, 2, 1, 2, 1, 2, 1, 2, 1])).toContain('9 in a row on one side');
    expect(signals([-3, -2, -1, 1, 2, 3])).toContain('6 in a row rising or falling');
  });
});
