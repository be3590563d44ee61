/** The npm packages of the lock file, installed into node_modules of the checkout and nowhere else. */
import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from './paths.mjs';
import { step } from './progress.mjs';
import { runProgram } from './run-program.mjs';

const MODULES = path.join(ROOT, 'node_modules');

function packagesIn(file) {
  try {
    return JSON.parse(fs.readFileSync(file, 'utf8')).packages;
  } catch {
    return undefined;
  }
}

/** True if every package of the lock file is installed in its locked version (optional ones may be absent). */
export function nodePackagesAreFresh() {
  const wanted = packagesIn(path.join(ROOT, 'package-lock.json'));
  const got = packagesIn(path.join(MODULES, '.package-lock.json'));
  if (!wanted || !got) return false;
  return Object.entries(wanted).every(([place, { version, optional, link }]) => {
    if (place === '' || link) return true;
    const installed = got[place];
    return installed ? installed.version === version : optional === true;
  });
}

function installedCount() {
  const folders = (dir) => {
    try {
      return fs.readdirSync(dir).filter((name) => !name.startsWith('.'));
    } catch {
      return [];
    }
  };
  const count = (name) => (name.startsWith('@') ? folders(path.join(MODULES, name)).length : 1);
  return folders(MODULES).reduce((sum, name) => sum + count(name), 0);
}

/** The npm that started us, run by this node; else the one on the search path. */
function npmProgram() {
  const script = process.env.npm_execpath;
  return script && /npm-cli\.c?js$/.test(script) ? [process.execPath, script] : ['npm'];
}

/** Installs what is missing; returns true if it had to. */
export async function ensureNodePackages() {
  if (nodePackagesAreFresh()) return false;
  const total = Object.keys(packagesIn(path.join(ROOT, 'package-lock.json')) ?? {}).length;
  const clean = !fs.existsSync(MODULES);
  // No package here needs an install script: native parts come ready-made inside the packages.
  const common = ['--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  await step(`npm packages (${total}, from package-lock.json, into node_modules)`, async (at) => {
    at.note(() => `${installedCount()} of about ${total}`);
    const [npm, ...first] = npmProgram();
    const what = clean ? ['ci'] : ['install', '--no-save'];
    await runProgram(npm, [...first, ...what, ...common], {
      log: 'npm',
      what: 'installing the npm packages',
      remedy:
        'check the network connection and give the same command again; if it fails again, delete the folder node_modules first',
    });
  });
  return true;
}
