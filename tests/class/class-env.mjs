/** The programs of a school's server, in .cache/class: a Python environment and the proxy of JupyterHub. */
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { findPython, pythonEnvironment } from '../../src/cli/bootstrap/python.mjs';
import { fingerprint, Stamp } from '../../src/cli/bootstrap/fingerprint.mjs';
import { CACHE, DIST, ROOT } from '../../src/cli/bootstrap/paths.mjs';
import { writeKernelspec } from '../../src/kernel/kernelspec.mjs';

const HOME = path.join(CACHE, 'class');
const ENV = path.join(HOME, 'env');
const REQUIREMENTS = 'tests/class/requirements.txt';
export const PROXY = 'configurable-http-proxy@5.3.0';

/** A program of the environment. */
export const program = (name) => path.join(ENV, 'bin', name);
export const proxyCommand = path.join(
  HOME,
  'proxy',
  'node_modules',
  '.bin',
  'configurable-http-proxy',
);

/** The variables with which these programs find each other and nothing of the user's own. */
export const environment = (home, more = {}) => ({
  ...pythonEnvironment(['JUPYTER_CONFIG_DIR', 'JUPYTER_DATA_DIR', 'JUPYTER_RUNTIME_DIR']),
  PATH: [path.dirname(program('python')), path.dirname(process.execPath), '/usr/bin', '/bin'].join(
    ':',
  ),
  HOME: home,
  JUPYTER_PREFER_ENV_PATH: '1',
  ...more,
});

const quiet = (command, words, options = {}) =>
  execFileSync(command, words, { stdio: ['ignore', 'ignore', 'inherit'], ...options });

/** Installs what is missing. POSIX only, as JupyterHub is. */
export function ensureClassEnv() {
  const stamp = new Stamp(path.join(HOME, 'stamp'));
  const wanted = fingerprint([REQUIREMENTS], PROXY);
  if (!stamp.holds(wanted)) {
    const [python, ...args] = findPython();
    fs.rmSync(HOME, { recursive: true, force: true });
    fs.mkdirSync(path.join(HOME, 'proxy'), { recursive: true });
    quiet(python, [...args, '-m', 'venv', ENV]);
    quiet(program('pip'), ['install', '-q', '--no-input', '-r', path.join(ROOT, REQUIREMENTS)], {
      env: pythonEnvironment(),
    });
    const proxy = path.join(HOME, 'proxy');
    fs.writeFileSync(path.join(proxy, 'package.json'), '{"private":true,"type":"commonjs"}\n');
    quiet('npm', ['install', '--silent', '--no-audit', '--no-fund', PROXY], { cwd: proxy });
    stamp.set(wanted);
  }
  const share = path.join(ENV, 'share', 'jupyter');
  writeKernelspec(path.join(share, 'kernels', 'cocked-hat'), { root: ROOT, dist: DIST });
}

/** The block of code of a page of the guide that begins with a line of this text. */
export function fromGuide(page, firstLine) {
  const text = fs.readFileSync(path.join(ROOT, 'src', 'guide', page), 'utf8');
  const blocks = [...text.matchAll(/^```\w+\n([\s\S]*?)^```$/gm)].map(([, code]) => code);
  const found = blocks.find((code) => code.startsWith(firstLine));
  if (!found) throw new Error(`src/guide/${page} has no block that begins with '${firstLine}'`);
  return found;
}
