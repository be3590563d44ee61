/** The kernel as Jupyter lists it. */
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The picture of the kernel in launchers: Jupyter takes a file of this name beside kernel.json. */
const LOGO = 'logo-svg.svg';

/**
 * Contents of kernel.json.
 * @param {{ node?: string, dist: string }} places the node program and our dist folder
 */
export function kernelSpec({ node = process.execPath, dist }) {
  return {
    argv: [
      node,
      '--disable-warning=ExperimentalWarning',
      path.join(dist, 'kernel', 'main.cjs'),
      '{connection_file}',
    ],
    display_name: 'TypeScript · Cocked Hat',
    language: 'typescript',
    interrupt_mode: 'message',
    metadata: { debugger: true },
  };
}

/** Puts the picture of the kernel beside its kernel.json. */
export function copyLogo(folder) {
  fs.copyFileSync(fileURLToPath(new URL(LOGO, import.meta.url)), path.join(folder, LOGO));
}

/**
 * Writes the kernelspec into a folder, such as share/jupyter/kernels/cocked-hat.
 * @param {string} folder
 * @param {{ root: string, dist: string, node?: string }} places
 */
export function writeKernelspec(folder, places) {
  fs.mkdirSync(folder, { recursive: true });
  const text = JSON.stringify(kernelSpec(places), null, 2);
  fs.writeFileSync(path.join(folder, 'kernel.json'), `${text}\n`);
  copyLogo(folder);
}
