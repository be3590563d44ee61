/** Puts our kernel and JupyterLab extension where the Jupyter of .env finds them. */
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { linkCommand } from './link-command.mjs';
import { DIST, ROOT, SHARE } from './paths.mjs';

const KERNELSPEC = path.join(ROOT, 'src', 'kernel', 'kernelspec.mjs');

/** Written anew at each start, since the place of node itself may have changed. */
async function registerKernel() {
  if (!fs.existsSync(KERNELSPEC)) return false;
  const { writeKernelspec } = await import(pathToFileURL(KERNELSPEC).href);
  await writeKernelspec(path.join(SHARE, 'kernels', 'cocked-hat'), { root: ROOT, dist: DIST });
  return true;
}

/** A copy, not a link: links need rights on Windows. */
function registerExtension() {
  const built = path.join(DIST, 'labextension');
  if (!fs.existsSync(built)) return false;
  const target = path.join(SHARE, 'labextensions', 'cocked-hat');
  fs.rmSync(target, { recursive: true, force: true });
  fs.cpSync(built, target, { recursive: true });
  return true;
}

/** Returns what was registered: `{ kernel, extension, command }`, false where the part is not there. */
export async function register() {
  return {
    kernel: await registerKernel(),
    extension: registerExtension(),
    command: linkCommand(),
  };
}
