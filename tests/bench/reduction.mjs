/** Reductions and fixes per second on one core, memory of a batch of 100 000 sights, and the ratio to vectorised Python. */
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundle, ROOT } from './bundle.mjs';

const { measureReductions, measureFixes } = await import(
  pathToFileURL(await bundle('reduction-run.ts')).href
);
const PYTHON = path.join(ROOT, '.env', 'bin', 'python');

const batch = measureReductions(100_000);
const perSecond = (n) => `${Math.round(n).toLocaleString('en')}/s`;
console.log(`reading to intercept, 100 000 sights: ${perSecond(batch.perSecond)} on one core`);
console.log(
  `memory of that batch: ${batch.bytesPerSight.toFixed(0)} bytes a sight (${(batch.bytesPerSight / 10).toFixed(1)} MB in all)`,
);
for (const f of measureFixes())
  console.log(`fix of ${f.sights} sights with its 95 % region: ${perSecond(f.perSecond)}`);

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
  for (const o of other.results)
    console.log(
      `${o.name}, vectorised: ${perSecond(o.perSecond)}; ours is ${(batch.perSecond / o.perSecond).toFixed(1)} times that` +
        `; largest difference in intercept ${o.worstArcmin.toFixed(4)}′`,
    );
  if (other.results.some((o) => !(o.worstArcmin < 0.02))) process.exitCode = 1;
}
if (batch.perSecond < 50_000) {
  console.error(`fewer than 50 000 reductions a second: ${perSecond(batch.perSecond)}`);
  process.exitCode = 1;
}
