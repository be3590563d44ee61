/** `npm run report`: measures the product, keeps the figures in tests/bench/figures.json and writes the tables of README and guide. */
import { spawn } from 'node:child_process';
import os from 'node:os';
import { wordsGiven } from '../../../src/cli/bootstrap/words-given.mjs';
import { ensureBenchPeers } from './peers.mjs';
import { isGood } from './figures.mjs';
import { circumstances, readKept, writeKept } from './kept.mjs';
import { parts as allParts } from './parts.mjs';
import { disagreements, writeTables } from './regions.mjs';

/** A part is given up when it takes this many times as long as on two free cores, but not before LEAST_SECONDS. */
const PATIENCE = 12;
const LEAST_SECONDS = 1200;

const NAMES = allParts({ rounds: '', sights: '' }).map(({ name }) => name);
const USAGE = `npm run report [-- PARTS…] [-- OPTIONS]

Measures the whole product, or the parts named, keeps the figures and writes the tables of README and guide from them.

  --check      only says whether the tables agree with the kept figures
  --tables     only writes the tables
  --rounds N   rounds of each kind in the calibration, 4000 unless told
  --sights N   sights of each slip, 400 unless told

Parts: ${NAMES.join(', ')}.`;

const { values: options, positionals } = wordsGiven(
  USAGE,
  {
    check: { type: 'boolean', default: false },
    tables: { type: 'boolean', default: false },
    rounds: { type: 'string', default: '4000' },
    sights: { type: 'string', default: '400' },
  },
  NAMES,
);

/** Runs a part's program; what it says on the way goes through, its figures come back. */
function measured({ script, args, seconds }) {
  const child = spawn(process.execPath, [script, ...args, '--json'], {
    stdio: ['ignore', 'pipe', 'inherit'],
    timeout: Math.max(seconds * PATIENCE, LEAST_SECONDS) * 1000,
  });
  const chunks = [];
  child.stdout.on('data', (chunk) => chunks.push(chunk));
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (code, signal) => {
      const line = Buffer.concat(chunks).toString('utf8').trim().split('\n').at(-1) ?? '';
      try {
        const { figures } = JSON.parse(line);
        if (!Array.isArray(figures) || figures.length === 0) throw new Error('no figures');
        resolve({ figures, code });
      } catch {
        reject(new Error(`gave no figures and ended with ${signal ?? `code ${code}`}`));
      }
    });
  });
}

/** Measures one part and keeps its figures; says what went wrong, if anything did. */
async function run(part) {
  const since = Date.now();
  const facts = circumstances();
  try {
    const { figures, code } = await measured(part);
    const seconds = Math.round((Date.now() - since) / 1000);
    // Read again just now: another part may have been kept by another run.
    writeKept({ ...readKept(), [part.name]: { ...facts, seconds, figures } });
    const missed = figures.filter((figure) => !isGood(figure));
    for (const { name, value, unit } of missed)
      console.log(`   misses its target: ${name}: ${value} ${unit}`);
    console.log(
      `== ${part.name}: ${figures.length} figures in ${seconds} s, ${missed.length} off target`,
    );
    return code === 0 && missed.length === 0
      ? []
      : [`${part.name}: not all is as it should be, see above`];
  } catch (error) {
    console.log(
      `== ${part.name}: FAILED, ${error.message}; the figures kept before stay, with their date`,
    );
    return [`${part.name}: ${error.message}`];
  }
}

function check() {
  const off = disagreements(readKept());
  for (const region of off) console.log(`not as the kept figures say: ${region}`);
  console.log(
    off.length === 0
      ? 'The tables agree with the kept figures.'
      : 'npm run report -- --tables writes them.',
  );
  return off;
}

async function main() {
  if (options.check) return check();
  const parts = allParts(options);
  const chosen = parts.filter(({ name }) => positionals.length === 0 || positionals.includes(name));
  const [load] = os.loadavg();
  if (load > os.availableParallelism())
    console.log(`The machine is busy (load ${load.toFixed(1)}): times measured now say little.`);
  if (!options.tables) await ensureBenchPeers();
  const troubles = [];
  const changed = new Set();
  for (const [i, part] of (options.tables ? [] : chosen).entries()) {
    const rest = chosen.slice(i).reduce((sum, { seconds }) => sum + seconds, 0);
    console.log(
      `\n== ${part.name} (${i + 1} of ${chosen.length}; about ${Math.ceil(rest / 60)} min to go on two free cores)`,
    );
    troubles.push(...(await run(part)));
    // After each part, so that a run that is broken off leaves figures and tables that agree.
    for (const file of writeTables(readKept())) changed.add(file);
  }
  for (const file of writeTables(readKept())) changed.add(file);
  console.log(
    changed.size > 0 ? `\nTables written: ${[...changed].join(', ')}` : '\nNo table changed.',
  );
  for (const trouble of troubles) console.log(trouble);
  return troubles;
}

try {
  process.exitCode = (await main()).length > 0 ? 1 : 0;
} catch (error) {
  console.error(error.message);
  process.exitCode = 2;
}
