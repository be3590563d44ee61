/** Checks of what set-up installs and builds. */
import { findChromium } from '../bootstrap/chromium.mjs';
import { nodePackagesAreFresh } from '../bootstrap/node-packages.mjs';
import { envBin } from '../bootstrap/paths.mjs';
import { findPython, pythonEnvIsFresh, RUNTIME_REQUIREMENTS } from '../bootstrap/python.mjs';
import { isNewEnough } from '../bootstrap/require-node.mjs';
import { outputOf } from '../bootstrap/run-program.mjs';
import { staleParts } from '../bootstrap/stale-parts.mjs';
import { bad, type Finding, good, note } from './finding.js';

const START = 'run npm start, which installs what is missing';

export function checkNode(): Finding {
  const { node } = process.versions;
  if (isNewEnough(node)) return good('Node.js', node);
  return bad('Node.js', `${node} is too old`, 'install Node.js 20.19 or newer');
}

export function checkNodePackages(): Finding {
  if (nodePackagesAreFresh()) return good('npm packages', 'as in package-lock.json');
  return bad('npm packages', 'not those of package-lock.json', START);
}

export function checkPython(): Finding {
  const version = outputOf(envBin('python'), ['-V'])?.trim();
  if (version) return good('Python', `${version} in .env`);
  const found = findPython();
  if (found) return bad('Python', `.env is missing (${found.join(' ')} can make it)`, START);
  return bad('Python', 'none from 3.11 on', 'install Python 3.11 or newer, then run npm start');
}

export function checkJupyterLab(): Finding {
  const code = 'from importlib.metadata import version; print(version("jupyterlab"))';
  const version = outputOf(envBin('python'), ['-c', code])?.trim();
  if (!version) return bad('JupyterLab', 'not in .env', START);
  if (pythonEnvIsFresh([RUNTIME_REQUIREMENTS])) return good('JupyterLab', version);
  return bad('JupyterLab', `${version}, not the version this checkout asks for`, START);
}

export function checkBuild(): Finding {
  const stale = staleParts().map(({ part }) => part.name);
  if (stale.length === 0) return good('Build', 'dist is up to date');
  return bad('Build', `out of date: ${stale.join(', ')}`, 'run npm run build');
}

export function checkChromium(): Finding {
  const found = findChromium();
  if (found) return good('Chromium', found);
  return note(
    'Chromium',
    'none; only the tests need it',
    'for npm test, install Chromium or name one in the variable CHROMIUM',
  );
}
