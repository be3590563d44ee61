/** A log of 100,000 rows: loaded, validated and reduced; time, memory, and the same ingest in pandas. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundle, ROOT } from './bundle.mjs';
import { figure, give, say } from './report/figures.mjs';

const MOST_SECONDS = 5;
const MOST_MIB = 1024;
const script = await bundle('log-run.ts');
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'log-bench-'));
const file = path.join(folder, 'log.csv');

// Its own process each, so that the memory is that of the ingest alone.
const inNode = (code) => {
  const run = spawnSync(process.execPath, ['--expose-gc', '--input-type=module', '-e', code], {
    encoding: 'utf8',
    cwd: ROOT,
  });
  if (run.status !== 0) throw new Error(run.stderr);
  return run.stdout;
};
const load = `import fs from 'node:fs'; const m = await import(${JSON.stringify(pathToFileURL(script).href)});`;

try {
  inNode(`${load} fs.writeFileSync(${JSON.stringify(file)}, m.bigLog());`);
  const ours = JSON.parse(
    inNode(
      `${load} console.log(JSON.stringify(m.measureLog(fs.readFileSync(${JSON.stringify(file)}, 'utf8'))));`,
    ),
  );
  const seconds = ours.loadSeconds + ours.reduceSeconds;
  say(
    `${ours.rows.toLocaleString('en')} rows, ${(fs.statSync(file).size / 1e6).toFixed(1)} MB of CSV`,
  );
  say(
    `loaded and validated in ${ours.loadSeconds.toFixed(2)} s, reduced to Ho, Hc, Zn and intercept in ${ours.reduceSeconds.toFixed(2)} s: ${seconds.toFixed(2)} s (aim ${MOST_SECONDS} s)`,
  );
  say(
    `peak ${ours.peakMib.toFixed(0)} MiB, of which ${ours.beforeMib.toFixed(0)} before the text was read (aim ${MOST_MIB} MiB)`,
  );
  const python = spawnSync(
    path.join(ROOT, '.env', 'bin', 'python'),
    [path.join(import.meta.dirname, 'log_pandas.py'), file],
    { encoding: 'utf8' },
  );
  if (python.status !== 0) throw new Error(`pandas failed:\n${python.stderr}`);
  const pandas = JSON.parse(python.stdout);
  say(
    `pandas ${pandas.version}: the same columns read, parsed and checked in ${pandas.seconds.toFixed(2)} s, peak ${pandas.peakMib.toFixed(0)} MiB; no Ho, no grouping, a bad cell named by nothing but NaN`,
  );
  say(
    `ours takes ${(ours.loadSeconds / pandas.seconds).toFixed(1)} times as long to load; both hold ${pandas.rows} rows and the sum of the readings agrees to ${Math.abs(ours.sumReading - pandas.sumReading).toExponential(1)}°`,
  );
  const wrong =
    pandas.rows !== ours.rows ||
    Math.abs(ours.sumReading - pandas.sumReading) > 1e-3 ||
    ours.worked !== ours.rows ||
    ours.refused > 0;
  if (wrong) console.error('the two ingests do not hold the same log');
  give([
    figure({
      name: '100 000 rows read, checked and reduced',
      value: seconds,
      unit: 's',
      target: { most: MOST_SECONDS },
    }),
    figure({
      name: '100 000 rows read and checked',
      value: ours.loadSeconds,
      unit: 's',
      peer: `pandas ${pandas.version}`,
      ratio: ours.loadSeconds / pandas.seconds,
    }),
    figure({ name: 'peak memory', value: ours.peakMib, unit: 'MiB', target: { most: MOST_MIB } }),
  ]);
  if (wrong || seconds > MOST_SECONDS || ours.peakMib > MOST_MIB) process.exitCode = 1;
} finally {
  fs.rmSync(folder, { recursive: true });
}
