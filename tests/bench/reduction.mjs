/** Reductions and fixes per second on one core, memory of a batch of 100 000 sights, and the ratio to vectorised Python. */
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundle, ROOT } from './bundle.mjs';
import { figure, give, say } from './report/figures.mjs';

const { measureReductions, measureFixes } = await import(
  pathToFileURL(await bundle('reduction-run.ts')).href
);
const PYTHON = path.join(ROOT, '.env', 'bin', 'python');

const batch = measureReductions(100_000);
const perSecond = (n) => `${Math.round(n).toLocaleString('en')}/s`;
say(`reading to intercept, 100 000 sights: ${perSecond(batch.perSecond)} on one core`);
say(
  `memory of that batch: ${batch.bytesPerSight.toFixed(0)} bytes a sight (${(batch.bytesPerSight / 10).toFixed(1)} MB in all)`,
);
const batchFigure = { value: batch.perSecond, unit: '/s', target: { least: 50_000 } };
const figures = [
  figure({ name: 'reading to intercept, sights a second', ...batchFigure }),
  figure({ name: 'memory of 100 000 sights', value: batch.bytesPerSight / 10, unit: 'MB' }),
];
for (const { sights, perSecond: rate } of measureFixes()) {
  say(`fix of ${sights} sights with its 95 % region: ${perSecond(rate)}`);
  const name = `a fix of ${sights} sights with its region`;
  figures.push(figure({ name, value: 1000 / rate, unit: 'ms' }));
}

const python = spawnSync(PYTHON, [path.join(import.meta.dirname, 'reduction_speed.py')], {
  input: JSON.stringify(batch.sample),
  encoding: 'utf8',
  maxBuffer: 1 << 28,
});
if (python.status !== 0) {
  console.error(`the Python comparison failed:\n${python.stderr}`);
  process.exitCode = 1;
} else {
  const other = JSON.parse(python.stdout);
  for (const o of other.results) {
    const name = `reading to intercept beside ${o.name}`;
    const ratio = batch.perSecond / o.perSecond;
    figures.push(
      figure({ ...batchFigure, name, peer: `${o.name}, vectorised`, ratio }),
      figure({
        name: `largest difference in intercept from ${o.name}`,
        value: o.worstArcmin,
        unit: '′',
        target: { most: 0.02 },
      }),
    );
    say(
      `${o.name}, vectorised: ${perSecond(o.perSecond)}; ours is ${(batch.perSecond / o.perSecond).toFixed(1)} times that` +
        `; largest difference in intercept ${o.worstArcmin.toFixed(4)}′`,
    );
  }
  if (other.results.some((o) => !(o.worstArcmin < 0.02))) process.exitCode = 1;
}
if (batch.perSecond < 50_000) {
  console.error(`fewer than 50 000 reductions a second: ${perSecond(batch.perSecond)}`);
  process.exitCode = 1;
}
give(figures);
