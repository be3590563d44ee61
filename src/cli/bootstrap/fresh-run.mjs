/** One run of `npm run fresh`: a clone of the last commit, a new home, empty caches, and both commands of the README. */
import { spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { ROOT } from './paths.mjs';
import { descendants, endTree, isAlive } from './process-tree.mjs';

const PORT = 8990;
const TOKEN = 'fresh';
const STOP_MS = 15_000;
const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
const seconds = (since) => (Date.now() - since) / 1000;
const endOf = (child) => new Promise((resolve) => child.once('close', resolve));

/** A user who has never installed anything; what leads to the package registries stays as it is. */
function newcomer(work, { node, python }) {
  const home = path.join(work, 'home');
  fs.mkdirSync(home);
  const env = { ...process.env, HOME: home, USERPROFILE: home, JUPYTER_TOKEN: TOKEN };
  for (const name of Object.keys(env))
    if (/^(XDG_.*|npm_.*|NODE_PATH|VIRTUAL_ENV|CHROMIUM|CI)$/i.test(name)) delete env[name];
  const caches = path.join(work, 'caches');
  return {
    ...env,
    ...(node ? { PATH: `${node}${path.delimiter}${env.PATH}` } : {}),
    ...(python ? { PYTHON: python } : {}),
    npm_config_cache: path.join(caches, 'npm'),
    PIP_CACHE_DIR: path.join(caches, 'pip'),
    UV_CACHE_DIR: path.join(caches, 'uv'),
  };
}

async function kernelsServed() {
  try {
    const headers = { authorization: `token ${TOKEN}` };
    const answer = await fetch(`http://127.0.0.1:${PORT}/api/kernelspecs`, { headers });
    return Object.keys((await answer.json()).kernelspecs ?? {});
  } catch {
    return [];
  }
}

/**
 * @typedef {{ what: string, took: number, good: boolean }} Result
 * @typedef {object} Wish
 * @property {string} name what the run is called in its results
 * @property {string} [node] folder with another Node, put first on the path
 * @property {string} [python] a Python, as for the variable PYTHON
 * @property {boolean} tests whether `npm test` is given too
 * @property {readonly string[]} filters narrow it
 * @property {boolean} keep leaves the folder
 */

/** @param {Wish} wish @returns {Promise<Result[]>} */
export async function freshRun(wish) {
  const work = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-fresh-'));
  const checkout = path.join(work, 'cocked-hat');
  const env = newcomer(work, wish);
  const results = [];
  const note = (what, took, good) => {
    results.push({ what: `${wish.name}: ${what}`, took, good });
    console.log(`== ${wish.name}: ${what}: ${good ? 'good' : 'FAILED'}, ${took.toFixed(1)} s\n`);
  };
  const npm = (...args) =>
    spawn('npm', args, {
      cwd: checkout,
      env,
      stdio: ['ignore', 'inherit', 'inherit'],
      shell: process.platform === 'win32',
    });

  /** `npm start` until our kernel is offered, then a stop signal; nothing may be left running. */
  const tryStart = async (what) => {
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
  };

  try {
    const git = spawnSync('git', ['clone', '-q', '--no-hardlinks', ROOT, checkout], {
      stdio: 'inherit',
    });
    if (git.status !== 0) throw new Error('the checkout cannot be cloned');
    await tryStart('first npm start');
    await tryStart('second npm start');
    if (wish.tests) {
      const since = Date.now();
      const code = await endOf(
        npm('test', ...(wish.filters.length ? ['--', ...wish.filters] : [])),
      );
      note(['npm test', ...wish.filters].join(' '), seconds(since), code === 0);
    }
    listHome(env.HOME);
    return results;
  } finally {
    if (wish.keep) console.log(`kept: ${work}`);
    else fs.rmSync(work, { recursive: true, force: true });
  }
}

/** Nothing of ours may appear in the home folder; other programs' own files are listed for the reader to judge. */
function listHome(home) {
  const found = fs.readdirSync(home, { recursive: true, withFileTypes: true });
  const files = found
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(home, path.join(entry.parentPath ?? entry.path, entry.name)));
  console.log(`files written into the home folder: ${files.join(', ') || 'none'}`);
}
