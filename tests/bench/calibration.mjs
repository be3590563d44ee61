/** `npm run calibration`: how often the 50 % and 95 % regions hold the true position. */
import { Worker } from 'node:worker_threads';
import os from 'node:os';
import { pathToFileURL } from 'node:url';
import { bundle } from './bundle.mjs';
import { wordsGiven } from '../../src/cli/bootstrap/words-given.mjs';
import { figure, give, say, words } from './report/figures.mjs';

const USAGE = `npm run calibration [-- ROUNDS [FILTER]]

Simulates rounds of sights, 20000 of each kind unless told, and counts how often the 50 % and 95 % regions hold the true
position; FILTER is a part of a kind's name. The exit code is 1 when a share is more than a percentage point off, chance
(2 standard deviations of a count of so many rounds) allowed for.`;
const [asked = '20000', filter = ''] = wordsGiven(USAGE, {}, 'any', words).positionals;
const rounds = Number(asked);
if (!(rounds > 0)) {
  console.error(`the number of rounds must be a positive number, not ${asked}`);
  process.exit(2);
}
const url = pathToFileURL(await bundle('calibration-cases.ts')).href;
const { SCENARIOS } = await import(url);
const chosen = SCENARIOS.map((s, i) => ({ s, i })).filter(({ s }) =>
  `${s.name} ${s.sights} ${s.azimuths}`.includes(filter),
);

const code = `
import { parentPort, workerData } from 'node:worker_threads';
const { SCENARIOS, measure } = await import(workerData.url);
parentPort.on('message', ({ index, rounds }) => {
  const s = SCENARIOS[index];
  const c = measure(s, rounds, 1000 + index);
  parentPort.postMessage({ index, rounds: c.rounds, held: c.held });
});`;
const results = new Map();
const queue = [...chosen];
const started = Date.now();
await Promise.all(
  Array.from({ length: Math.min(os.availableParallelism(), queue.length) }, () => {
    const worker = new Worker(new URL(`data:text/javascript,${encodeURIComponent(code)}`), {
      workerData: { url },
    });
    return new Promise((resolve, reject) => {
      const next = () => {
        const job = queue.shift();
        if (!job) return void worker.terminate().then(resolve);
        worker.postMessage({ index: job.i, rounds });
      };
      worker.on('message', (m) => {
        results.set(m.index, m);
        process.stderr.write(`\r${results.size}/${chosen.length} kinds of round`);
        next();
      });
      worker.on('error', reject);
      next();
    });
  }),
);
process.stderr.write('\n');

let worst = 0;
let failed = false;
const chance = (p) => 100 * Math.sqrt((p * (1 - p)) / rounds);
/** Percentage points allowed, by level. */
const allowed = [0.5, 0.95].map((p) => 1 + 2 * chance(p));
say('| Round | Sights | Azimuths | 50 % region holds | 95 % region holds |');
say('|---|---|---|---|---|');
const figures = [];
for (const { s, i } of chosen) {
  const { held } = results.get(i);
  const off = held.map((h, k) => Math.abs(h - [0.5, 0.95][k]) * 100);
  worst = Math.max(worst, ...off);
  failed ||= off.some((o, k) => o > allowed[k]);
  const cell = (k) => `${(held[k] * 100).toFixed(1)} %${off[k] > allowed[k] ? ' **off**' : ''}`;
  say(`| ${s.name} | ${s.sights} | ${s.azimuths} | ${cell(0)} | ${cell(1)} |`);
  [50, 95].forEach((level, k) => {
    const about = { round: s.name, sights: s.sights, azimuths: s.azimuths, level, rounds };
    const name = `${s.name}, ${s.sights} sights, ${s.azimuths}: ${level} % region holds`;
    const share = { name, value: held[k] * 100, unit: '%', about };
    // The target is the distance from the level; a figure carries one limit, so the distance is a figure of its own.
    figures.push(figure(share));
    figures.push(
      figure({
        name: `${name}, off by`,
        value: off[k],
        unit: 'percentage points',
        target: { most: allowed[k] },
      }),
    );
  });
}
say(
  `\n${chosen.length} kinds of round, ${rounds} rounds each, ${((Date.now() - started) / 1000).toFixed(0)} s. ` +
    `Worst ${worst.toFixed(2)} percentage points off; chance alone moves a share by ${chance(0.5).toFixed(2)} (50 %) and ${chance(0.95).toFixed(2)} (95 %), 1σ.`,
);
give(figures);
process.exitCode = failed ? 1 : 0;
