/** Builds the kernel into dist/kernel. */
import fs from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';
import { buildTypes } from './types/build.mjs';

/** Packages that stay packages: native code, or too large to copy. */
const EXTERNAL = ['zeromq', 'tslab', 'tslab/*', '@tslab/*', 'typescript', 'cocked-hat'];

/**
 * @param {{ root: string, dist: string, minify?: boolean }} context the checkout and its dist folder
 */
export async function buildKernel({ root, dist, minify = true }) {
  const outdir = path.join(dist, 'kernel');
  fs.rmSync(outdir, { recursive: true, force: true });
  const { version } = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));
  const kernel = path.join(root, 'src', 'kernel');
  await build({
    absWorkingDir: root,
    entryPoints: {
      main: path.join(kernel, 'main.ts'),
      front: path.join(kernel, 'front', 'main.ts'),
      runner: path.join(kernel, 'runner', 'child.ts'),
      hooks: path.join(kernel, 'modules', 'hooks.ts'),
      'tslab-api': path.join(kernel, 'modules', 'tslab-api.ts'),
    },
    outdir,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    minify,
    keepNames: false,
    external: EXTERNAL,
    define: { PACKAGE_VERSION: JSON.stringify(version) },
    banner: {
      js: "import { createRequire as __makeRequire } from 'node:module'; const require = __makeRequire(import.meta.url);",
    },
    logLevel: 'warning',
  });
  await buildTypes({ root, outdir });
}
