/** Checks of what Jupyter is told about us. */
import fs from 'node:fs';
import path from 'node:path';
import { SHARE, shown } from '../bootstrap/paths.mjs';
import { bad, type Finding, good } from './finding.js';

const START = 'run npm start, which registers it';

function readJson(file: string): unknown {
  try {
    return JSON.parse(fs.readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
}

/** The kernel is registered, and the node and the program that its entry names exist. */
export function checkKernelspec(share: string = SHARE): Finding {
  const file = path.join(share, 'kernels', 'cocked-hat', 'kernel.json');
  const spec = readJson(file) as { display_name?: string; argv?: string[] } | undefined;
  if (!spec?.argv) return bad('Kernel', `${shown(file)} is missing or unreadable`, START);
  const gone = spec.argv.find((word) => path.isAbsolute(word) && !fs.existsSync(word));
  if (gone) return bad('Kernel', `its entry names ${gone}, which is not there`, START);
  return good('Kernel', `${spec.display_name} is registered`);
}

/** The extension is registered and its files are there. */
export function checkExtension(share: string = SHARE): Finding {
  const folder = path.join(share, 'labextensions', 'cocked-hat');
  const manifest = readJson(path.join(folder, 'package.json')) as
    { version?: string; jupyterlab?: { _build?: { load?: string } } } | undefined;
  const load = manifest?.jupyterlab?._build?.load;
  if (!load) return bad('Extension', `${shown(folder)} is missing or unreadable`, START);
  if (!fs.existsSync(path.join(folder, load)))
    return bad('Extension', `${shown(path.join(folder, load))} is missing`, START);
  return good('Extension', `version ${manifest?.version} is registered`);
}
