/** Puts our kernel, JupyterLab extension and command where Jupyter of .env and npx find them. */
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { linkCommand } from './link-command.mjs';
import { CACHE, DIST, ROOT, SHARE } from './paths.mjs';

const KERNELSPEC = path.join(ROOT, 'src', 'kernel', 'kernelspec.mjs');

/** Names and contents, wherever the folder lies. */
function sameContent(a, b) {
  if (!fs.existsSync(a) || !fs.existsSync(b)) return false;
  const list = (folder) => fs.readdirSync(folder, { recursive: true }).sort();
  const names = list(a);
  if (names.join('\n') !== list(b).join('\n')) return false;
  return names.every((name) => {
    const [one, other] = [path.join(a, name), path.join(b, name)];
    return fs.statSync(one).isDirectory() || fs.readFileSync(one).equals(fs.readFileSync(other));
  });
}

/** Copies a folder unless the copy is there already: a Jupyter that runs may be reading it. */
function place(from, to) {
  if (sameContent(from, to)) return;
  fs.rmSync(to, { recursive: true, force: true });
  fs.cpSync(from, to, { recursive: true });
}

/** Made anew at each start, since the place of node itself may have changed. */
async function registerKernel() {
  if (!fs.existsSync(KERNELSPEC)) return false;
  const { writeKernelspec } = await import(pathToFileURL(KERNELSPEC).href);
  const made = path.join(CACHE, 'kernelspec');
  fs.rmSync(made, { recursive: true, force: true });
  await writeKernelspec(made, { root: ROOT, dist: DIST });
  place(made, path.join(SHARE, 'kernels', 'cocked-hat'));
  return true;
}

/** A copy, not a link: links need rights on Windows. */
function registerExtension() {
  const built = path.join(DIST, 'labextension');
  if (!fs.existsSync(built)) return false;
  place(built, path.join(SHARE, 'labextensions', 'cocked-hat'));
  return true;
}

/** Settings of JupyterLab that differ from its own: it asks nobody for news. */
const SETTINGS = {
  '@jupyterlab/apputils-extension:notification': { fetchNews: 'false', checkForUpdates: false },
};

function registerSettings() {
  const folder = path.join(SHARE, 'lab', 'settings');
  fs.mkdirSync(folder, { recursive: true });
  fs.writeFileSync(path.join(folder, 'overrides.json'), `${JSON.stringify(SETTINGS, null, 2)}\n`);
}

/** Returns what was registered: `{ kernel, extension, command }`, false where the part is not there. */
export async function register() {
  registerSettings();
  return {
    kernel: await registerKernel(),
    extension: registerExtension(),
    command: linkCommand(),
  };
}
