/**
 * Apparent places a second: this library's kernel and its value objects, astronomy-engine, and skyfield's vectorised
 * call, in one run on the same epochs. Each at its best of several rounds. Prints a table; exits 1 when the kernel is
 * slower than astronomy-engine on a body.
 */
import * as Engine from 'astronomy-engine';
import { build } from 'esbuild';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { figure, give, say } from './report/figures.mjs';

const EPOCHS = 20000;
const ROUNDS = 3;
const BODIES = ['Sun', 'Moon', 'Venus', 'Mars', 'Jupiter', 'Saturn', 'Arcturus'];
const [FIRST, SPAN] = [2447892.5, 60 * 365.25]; // 1990 to 2050

const bundle = path.resolve('.cache/bench-sky.mjs');
await build({
  entryPoints: ['src/index.ts'],
  outfile: bundle,
  bundle: true,
  platform: 'node',
  format: 'esm',
  packages: 'external',
  logLevel: 'warning',
});
const cockedHat = await import(pathToFileURL(bundle).href);
const catalogue = JSON.parse(fs.readFileSync('data/nav-stars.json', 'utf8'));
const star = catalogue.stars.find((s) => s.name === 'Arcturus');

// Epochs in no order, so that nobody gains from neighbours; the fraction of the golden mean spreads them evenly.
const ttJd = Array.from(
  { length: EPOCHS },
  (_, i) => FIRST + SPAN * ((i * 0.6180339887498949) % 1),
);

/** Best calls a second over the rounds, and what they summed to, so that no call is optimised away. */
function measure(each) {
  let [best, sum] = [0, 0];
  for (let round = 0; round <= ROUNDS; round++) {
    const start = performance.now();
    for (const tt of ttJd) sum += each(tt);
    if (round > 0) best = Math.max(best, EPOCHS / ((performance.now() - start) / 1000));
  }
  return Number.isFinite(sum) ? best : NaN;
}

const out = cockedHat.newPlaceNumbers();
const kernel = (body) => (tt) => cockedHat.placeKernel(body, tt, tt - 0.0008, out).ghaDeg;
const values = (body) => (tt) =>
  cockedHat.apparentPlace(body, cockedHat.Instant.fromJulianDates({ tt, ut1: tt - 0.0008 })).gha
    .degrees;

Engine.DefineStar('Star1', star.raDeg / 15, star.decDeg, 36.7);
function engine(body) {
  const name = body === 'Arcturus' ? 'Star1' : body;
  return (tt) => {
    const time = new Engine.AstroTime(tt - 2451545 - 0.0008);
    time.tt = tt - 2451545;
    const v = Engine.RotateVector(
      Engine.Rotation_EQJ_EQD(time),
      Engine.GeoVector(name, time, true),
    );
    return (
      Engine.SiderealTime(time) * 15 -
      (Math.atan2(v.y, v.x) * 180) / Math.PI +
      Math.asin(v.z / Math.hypot(v.x, v.y, v.z))
    );
  };
}

const skyfield = JSON.parse(
  execFileSync('.env/bin/python', ['tests/bench/skyfield_speed.py'], {
    input: JSON.stringify({ bodies: BODIES, ttJd, repeats: ROUNDS, star }),
    encoding: 'utf8',
  }),
);

const cell = (n) => Math.round(n).toLocaleString('en').padStart(11);
say('Apparent places a second, one body at a time, each at a new epoch');
say('body            kernel      values astronomy-e.    skyfield   × engine  × skyfield');
let slower = false;
const figures = [];
for (const body of BODIES) {
  const [k, v, e, s] = [
    measure(kernel(body)),
    measure(values(body)),
    measure(engine(body)),
    skyfield[body],
  ];
  slower ||= !(k >= e);
  const fast = { name: `places a second, ${body}`, value: k, unit: '/s' };
  const engineRatio = { peer: 'astronomy-engine', ratio: k / e, target: { least: e } };
  figures.push(
    figure({ ...fast, ...engineRatio, about: { body, values: Math.round(v) } }),
    figure({ ...fast, name: `${fast.name}, beside skyfield`, peer: 'skyfield', ratio: k / s }),
  );
  say(
    `${body.padEnd(10)}${cell(k)} ${cell(v)} ${cell(e)} ${cell(s)} ${(k / e).toFixed(1).padStart(10)} ${(k / s).toFixed(1).padStart(11)}`,
  );
}
give(figures);
process.exitCode = slower ? 1 : 0;
