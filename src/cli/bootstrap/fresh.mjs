/**
 * `npm run fresh`: what a newcomer meets. Clones the last commit into a temporary folder, with a new home and
 * empty caches, gives both commands of the README and prints how long each took. Not part of `npm test`.
 */
import './require-node.mjs';
import { spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { ROOT } from './paths.mjs';
import { descendants, endChildren, endTree, isAlive } from './process-tree.mjs';

const PORT = 8990;
const TOKEN = 'fresh';
const STOP_MS = 15_000;
const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

const { values: options } = parseArgs({
  options: {
    keep: { type: 'boolean', default: false },
    'no-tests': { type: 'boolean', default: false },
    python: { type: 'string' },
  },
});

const work = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-fresh-'));
const checkout = path.join(work, 'cocked-hat');

/** A user who has never installed anything; what leads to the package registries stays as it is. */
function newcomer() {
  const home = path.join(work, 'home');
  fs.mkdirSync(home);
  const env = { ...process.env, HOME: home, USERPROFILE: home, JUPYTER_TOKEN: TOKEN };
  for (const name of Object.keys(env))
    if (/^(XDG_.*|npm_.*|NODE_PATH|VIRTUAL_ENV|CHROMIUM|CI)$/i.test(name)) delete env[name];
  const caches = path.join(work, 'caches');
  return {
    ...env,
    ...(options.python ? { PYTHON: options.python } : {}),
    npm_config_cache: path.join(caches, 'npm'),
    PIP_CACHE_DIR: path.join(caches, 'pip'),
    UV_CACHE_DIR: path.join(caches, 'uv'),
  };
}

const env = newcomer();
const seconds = (since) => (Date.now() - since) / 1000;
const results = [];

function note(what, took, good) {
  results.push({ what, took, good });
  console.log(`== ${what}: ${good ? 'good' : 'FAILED'}, ${took.toFixed(1)} s\n`);
}

function npm(...args) {
  return spawn('npm', args, {
    cwd: checkout,
    env,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
  });
}

const endOf = (child) => new Promise((resolve) => child.once('close', resolve));

async function kernelsServed() {
  try {
    const headers = { authorization: `token ${TOKEN}` };
    const answer = await fetch(`http://127.0.0.1:${PORT}/api/kernelspecs`, { headers });
    return Object.keys((await answer.json()).kernelspecs ?? {});
  } catch {
    return [];
  }
}

/** `npm start` until our kernel is offered, then a stop signal; nothing may be left running. */
async function tryStart(what) {
  const since = Date.now();
  const child = npm('start', '--', '--no-browser', '--port', String(PORT));
  const ended = endOf(child);
  let served = [];
  while (child.exitCode === null && !served.includes('cocked-hat')) {
    served = await kernelsServed();
    await pause(100);
  }
  const took = seconds(since);
  const family = [child.pid, ...descendants(child.pid)];
  child.kill('SIGTERM');
  await ended;
  // npm itself ends at once; what it started has this long to stop in good order.
  const end = Date.now() + STOP_MS;
  while (family.some(isAlive) && Date.now() < end) await pause(100);
  const left = family.filter(isAlive);
  if (left.length > 0) console.log(`left running: ${left.join(', ')}`);
  for (const id of left) endTree(id);
  note(what, took, served.includes('cocked-hat') && left.length === 0);
}

async function tryTests() {
  const since = Date.now();
  const code = await endOf(npm('test'));
  note('npm test', seconds(since), code === 0);
}

function cloneHead() {
  const git = spawnSync('git', ['clone', '-q', '--no-hardlinks', ROOT, checkout], {
    stdio: 'inherit',
  });
  if (git.status !== 0) process.exit(1);
}

/** Nothing of ours may appear in the home folder; other programs' own files are listed for the reader to judge. */
function listHome() {
  const found = fs.readdirSync(env.HOME, { recursive: true, withFileTypes: true });
  const files = found
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(env.HOME, path.join(entry.parentPath ?? entry.path, entry.name)));
  console.log(`files written into the home folder: ${files.join(', ') || 'none'}`);
}

try {
  cloneHead();
  await tryStart('first npm start');
  await tryStart('second npm start');
  if (!options['no-tests']) await tryTests();
  listHome();
} finally {
  endChildren();
  if (options.keep) console.log(`kept: ${work}`);
  else fs.rmSync(work, { recursive: true, force: true });
}
for (const { what, took, good } of results)
  console.log(`${good ? 'good  ' : 'FAILED'}  ${took.toFixed(1).padStart(6)} s  ${what}`);
process.exit(results.every(({ good }) => good) ? 0 : 1);
