/** Builds the kernel into dist/kernel. */
import { spawnSync } from 'node:child_process';
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
  const common = {
    absWorkingDir: root,
    outdir,
    bundle: true,
    platform: 'node',
    target: 'node20',
    minify,
    keepNames: false,
    external: EXTERNAL,
    define: { PACKAGE_VERSION: JSON.stringify(version) },
    logLevel: 'warning',
  };
  // CommonJS, because Node reads it in less time, and what V8 compiled of it can be kept.
  await build({
    ...common,
    entryPoints: {
      main: path.join(kernel, 'main.ts'),
      front: path.join(kernel, 'front', 'main.ts'),
      runner: path.join(kernel, 'runner', 'child.ts'),
      cells: path.join(kernel, 'host', 'cells-thread.ts'),
      'is-complete': path.join(kernel, 'front', 'is-complete.ts'),
      debugger: path.join(kernel, 'debug', 'adapter.ts'),
      'keep-parts': path.join(kernel, 'keep-parts.ts'),
    },
    format: 'cjs',
    outExtension: { '.js': '.cjs' },
    define: { ...common.define, 'import.meta.url': 'ownUrl' },
    banner: { js: "const ownUrl = require('node:url').pathToFileURL(__filename).href;" },
  });
  await build({
    ...common,
    entryPoints: {
      hooks: path.join(kernel, 'modules', 'hooks.ts'),
      'tslab-api': path.join(kernel, 'modules', 'tslab-api.ts'),
    },
    format: 'esm',
    banner: {
      js: "import { createRequire as __makeRequire } from 'node:module'; const require = __makeRequire(import.meta.url);",
    },
  });
  // With the flags of the kernel, because V8 asks for the same ones.
  const flags = ['--disable-warning=ExperimentalWarning'];
  spawnSync(process.execPath, [...flags, path.join(outdir, 'keep-parts.cjs')], {
    stdio: 'inherit',
  });
  await buildTypes({ root, outdir });
}
