/** Builds the kernel for JupyterLite into dist/lite-kernel: an extension folder of plain files. */
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { declarationFiles } from './declaration-files.mjs';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const NAME = 'cocked-hat-lite';
const EPHEMERIS = 'ephemeris-1950-2053.bin';

/** Writes a file under a name with the hash of its contents, so that no cache keeps an old one. */
function writeHashed(folder, file, contents) {
  const { name, ext } = path.parse(file);
  const hash = createHash('sha256').update(contents).digest('hex').slice(0, 10);
  const hashed = `${name}-${hash}${ext}`;
  fs.writeFileSync(path.join(folder, hashed), contents);
  return hashed;
}

/**
 * @param {{ root?: string, dist?: string, outdir?: string }} context `outdir` is dist/lite-kernel unless given;
 *   dist/types must have been made before
 * @returns {Promise<{ outdir: string }>}
 */
export async function buildLiteKernel({
  root = ROOT,
  dist = path.join(root, 'dist'),
  outdir,
} = {}) {
  const esbuild = await import('esbuild');
  const target = outdir ?? path.join(dist, 'lite-kernel');
  const statics = path.join(target, 'static');
  fs.rmSync(target, { recursive: true, force: true });
  fs.mkdirSync(statics, { recursive: true });
  const { version, description, license } = JSON.parse(
    fs.readFileSync(path.join(root, 'package.json'), 'utf8'),
  );
  const text = (value) => JSON.stringify(value);
  const common = {
    absWorkingDir: root,
    bundle: true,
    minify: true,
    write: false,
    target: 'es2022',
    platform: 'browser',
    logLevel: 'warning',
    legalComments: 'none',
  };
  const bundle = async (entry, name, options) => {
    const { outputFiles } = await esbuild.build({
      ...common,
      entryPoints: [entry],
      outfile: name,
      format: 'iife',
      ...options,
    });
    return writeHashed(statics, name, outputFiles[0].contents);
  };
  /** A module whose late imports are files of their own; returns the name of the first. */
  const parts = async (entry, define) => {
    const { outputFiles } = await esbuild.build({
      ...common,
      entryPoints: [entry],
      outdir: statics,
      format: 'esm',
      splitting: true,
      entryNames: '[name]-[hash]',
      define,
    });
    const named = outputFiles.map((file) => ({ name: path.basename(file.path), ...file }));
    for (const { name, contents } of named) fs.writeFileSync(path.join(statics, name), contents);
    return named.find(({ name }) => name.startsWith(`${path.parse(entry).name}-`)).name;
  };
  const folder = 'src/lab/lite-kernel';
  const ephemeris = writeHashed(
    statics,
    EPHEMERIS,
    fs.readFileSync(path.join(root, 'data', EPHEMERIS)),
  );
  const declarations = writeHashed(
    statics,
    'declarations.json',
    text(declarationFiles(root, dist)),
  );
  const worker = await bundle(`${folder}/worker.ts`, 'worker.js', {
    define: { EPHEMERIS_FILE: text(ephemeris) },
  });
  const types = await bundle(`${folder}/types-worker.ts`, 'types.js', {
    define: { DECLARATIONS_FILE: text(declarations), 'process.env.NODE_ENV': '"production"' },
    external: [
      'fs',
      'path',
      'os',
      'inspector',
      'crypto',
      'source-map-support',
      'perf_hooks',
      'module',
      'url',
    ],
  });
  const main = await parts(`${folder}/main.ts`, {
    WORKER_FILE: text(worker),
    TYPES_FILE: text(types),
    PACKAGE_VERSION: text(version),
  });
  const entry = await bundle('src/lab/remote.ts', 'remoteEntry.js', {
    define: { MAIN_FILE: text(main), EXTENSION_NAME: text(NAME) },
  });
  const manifest = {
    name: NAME,
    version,
    description,
    license,
    jupyterlab: { extension: true, _build: { load: `static/${entry}`, extension: './extension' } },
    jupyterlite: { liteExtension: true },
  };
  fs.writeFileSync(path.join(target, 'package.json'), `${JSON.stringify(manifest, null, 2)}\n`);
  return { outdir: target };
}
