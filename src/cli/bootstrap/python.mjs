/** The project's own Python environment in .env, made by uv if there is one, else by venv and pip. */
import fs from 'node:fs';
import path from 'node:path';
import { SetupFailure } from './failure.mjs';
import { fingerprint, Stamp } from './fingerprint.mjs';
import { CACHE, ENV, envBin, ROOT } from './paths.mjs';
import { step } from './progress.mjs';
import { answers, outputOf, runProgram } from './run-program.mjs';

/** What JupyterLab needs. */
export const RUNTIME_REQUIREMENTS = 'src/cli/bootstrap/requirements.txt';
/** What the tests need besides. */
export const TEST_REQUIREMENTS = 'tests/requirements.txt';
/** What benchmarks are measured beside. */
export const BENCH_REQUIREMENTS = 'tests/bench/requirements.txt';

const OLDEST = [3, 11];
const windows = process.platform === 'win32';

/** The environment for programs of .env: no packages from anywhere else, nothing of `unset`. */
export function pythonEnvironment(unset = []) {
  const env = { ...process.env, PYTHONNOUSERSITE: '1', PIP_USER: '0' };
  for (const name of ['PYTHONPATH', 'PYTHONHOME', ...unset]) delete env[name];
  return { ...env, PIP_DISABLE_PIP_VERSION_CHECK: '1' };
}

/** `['python3']` or `['py', '-3']`: the first one that is new enough; undefined if there is none. */
export function findPython() {
  const named = ['python3', 'python', 'python3.14', 'python3.13', 'python3.12', 'python3.11'];
  const candidates = named.map((name) => [name]);
  if (windows) candidates.unshift(['py', '-3']);
  if (process.env.PYTHON) candidates.unshift([process.env.PYTHON]);
  return candidates.find(([command, ...args]) => {
    const code = 'import sys; print(*sys.version_info[:2])';
    const version = outputOf(command, [...args, '-c', code])
      ?.trim()
      .split(' ')
      .map(Number);
    if (!version || version.length !== 2) return false;
    const [major, minor] = version;
    return major > OLDEST[0] || (major === OLDEST[0] && minor >= OLDEST[1]);
  });
}

async function makeWithUv(at) {
  const python = findPython();
  const wish = python?.length === 1 ? python[0] : `>=${OLDEST.join('.')}`;
  at.note('uv venv');
  await runProgram('uv', ['venv', '--seed', '--python', wish, ENV], {
    log: 'python-env',
    what: 'making the Python environment .env',
    remedy: 'see the message above; set UV=0 to use pip instead of uv',
    // If uv has to fetch a Python it stays inside the checkout.
    env: { ...pythonEnvironment(), UV_PYTHON_INSTALL_DIR: path.join(CACHE, 'python') },
  });
}

async function makeWithVenv(at) {
  const python = findPython();
  if (!python)
    throw new SetupFailure(`there is no Python ${OLDEST.join('.')} or newer`, {
      remedy:
        'install Python (see https://www.python.org/downloads) or uv, or name one in the variable PYTHON, then give the same command again',
    });
  const [command, ...args] = python;
  at.note(`${command} -m venv`);
  await runProgram(command, [...args, '-m', 'venv', ENV], {
    log: 'python-env',
    what: 'making the Python environment .env',
    remedy:
      'on Debian or Ubuntu install the package python3-venv; elsewhere install a complete Python, then give the same command again',
    env: pythonEnvironment(),
  });
}

const usesUv = () => process.env.UV !== '0' && answers('uv');

async function install(files, at) {
  const list = files.flatMap((file) => ['-r', path.join(ROOT, file)]);
  const options = {
    log: 'python-packages',
    what: 'installing the Python packages',
    remedy:
      'check the network connection and give the same command again; if it fails again, delete the folder .env first',
    env: pythonEnvironment(),
    onLine: (line) => at.note(line.slice(0, 60)),
  };
  if (usesUv())
    await runProgram('uv', ['pip', 'install', '--python', envBin('python'), ...list], options);
  else {
    const quiet = ['--no-input', '--progress-bar', 'off'];
    await runProgram(envBin('python'), ['-m', 'pip', 'install', ...quiet, ...list], options);
  }
}

function stampFor(file) {
  return new Stamp(path.join(ENV, '.stamps', path.basename(path.dirname(file))));
}

const isFresh = (file) => stampFor(file).holds(fingerprint([file]));

/** True if .env works and holds what these requirement files name. */
export function pythonEnvIsFresh(files) {
  return files.every(isFresh) && answers(envBin('python'));
}

/**
 * Makes .env hold what the requirement files name; returns true if something had to be installed.
 * @param {string[]} files paths relative to the checkout
 */
export async function ensurePythonEnv(files) {
  if (pythonEnvIsFresh(files)) return false;
  const tool = usesUv() ? 'uv' : 'pip';
  await step(`Python packages (${files.join(', ')}; by ${tool}, into .env)`, async (at) => {
    if (!answers(envBin('python'))) {
      fs.rmSync(ENV, { recursive: true, force: true });
      await (tool === 'uv' ? makeWithUv(at) : makeWithVenv(at));
    }
    await install(files, at);
    // JupyterLab runs old-style JavaScript from in there; without this our "type": "module" would apply to it.
    fs.writeFileSync(path.join(ENV, 'package.json'), '{ "type": "commonjs" }\n');
  });
  for (const file of files) stampFor(file).set(fingerprint([file]));
  return true;
}
