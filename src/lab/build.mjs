/** Builds the JupyterLab extension: plain files in a folder that JupyterLab serves, nothing fetched from elsewhere. */
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const NAME = 'cocked-hat';

/** A folder's modules as one browser bundle, split where it loads lazily, file names hashed. */
async function bundle(esbuild, entry, outdir, options) {
  const { metafile } = await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: [entry],
    outdir,
    bundle: true,
    minify: true,
    target: 'es2022',
    entryNames: '[name]-[hash]',
    chunkNames: '[name]-[hash]',
    assetNames: '[name]-[hash]',
    metafile: true,
    legalComments: 'linked',
    logLevel: 'warning',
    loader: { '.css': 'text', '.woff2': 'file' },
    ...options,
  });
  const made = Object.entries(metafile.outputs).find(
    ([, output]) =>
      output.entryPoint && path.resolve(ROOT, output.entryPoint) === path.resolve(ROOT, entry),
  );
  return { file: path.basename(made[0]), metafile };
}

/**
 * @param {{ root?: string, dist?: string, outdir?: string }} context `outdir` is dist/labextension unless given
 * @returns {Promise<{ outdir: string, entry: string, metafile: object }>} `metafile`: esbuild's account of what loads what
 */
export async function buildLab({ root = ROOT, dist = path.join(root, 'dist'), outdir } = {}) {
  const esbuild = await import('esbuild');
  const target = outdir ?? path.join(dist, 'labextension');
  const statics = path.join(target, 'static');
  fs.rmSync(target, { recursive: true, force: true });
  const { file: main, metafile } = await bundle(esbuild, 'src/lab/main.ts', statics, {
    format: 'esm',
    splitting: true,
  });
  const { file: entry } = await bundle(esbuild, 'src/lab/remote.ts', statics, {
    format: 'iife',
    entryNames: 'remoteEntry-[hash]',
    define: { MAIN_FILE: JSON.stringify(main), EXTENSION_NAME: JSON.stringify(NAME) },
  });
  const { buildGuide } = await import('../guide/build.mjs');
  await buildGuide({ root, dist: statics });
  const { version, description, license } = JSON.parse(
    fs.readFileSync(path.join(root, 'package.json'), 'utf8'),
  );
  const manifest = {
    name: NAME,
    version,
    description,
    license,
    jupyterlab: {
      extension: true,
      _build: { load: `static/${entry}`, extension: './extension' },
    },
  };
  fs.writeFileSync(path.join(target, 'package.json'), JSON.stringify(manifest, null, 2) + '\n');
  return { outdir: target, entry, metafile };
}

/**
 * The views as one script for a page of its own (src/lab/page.ts), everything inside: works from a memory stick.
 * @param {{ outfile: string, plotly?: boolean }} options without plotly, plots stay as their still pictures
 */
export async function buildPage({ outfile, plotly = true }) {
  const esbuild = await import('esbuild');
  await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: ['src/lab/page.ts'],
    outfile,
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2022',
    logLevel: 'warning',
    legalComments: 'inline',
    loader: { '.css': 'text', '.woff2': 'dataurl' },
    define: { 'import.meta.url': '""' },
    ...(plotly ? {} : { external: ['plotly.js/*'] }),
  });
}
