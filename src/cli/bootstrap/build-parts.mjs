/** The parts that a build makes: what each is made from, and how. */
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { includeDataTypes } from './data-types.mjs';
import { DIST, ROOT } from './paths.mjs';
import { runProgram } from './run-program.mjs';

/** Folders that the library is made from; kernel, lab, publish and cli stand above it. */
const LIBRARY = [
  ...['core', 'log', 'views', 'exercises', 'cells'].map((layer) => `src/${layer}`),
  'src/ephemeris-file.ts',
  'src/text-files.ts',
  'data',
];
/** What the pages of the guide are made of. */
const GUIDE = ['src/guide', 'src/publish/css/colours.css'];

/**
 * @typedef {object} Part
 * @property {string} name
 * @property {string[]} inputs files and folders, relative to the checkout
 * @property {string} entry the part is left out where this file does not exist
 * @property {string} product a file or folder that exists once the part is built
 * @property {(context: { root: string, dist: string }) => Promise<unknown>} make
 */

async function bundle(entry, outfile, options) {
  const { build } = await import('esbuild');
  await build({
    absWorkingDir: ROOT,
    entryPoints: [entry],
    outfile: path.join(DIST, outfile),
    bundle: true,
    format: 'esm',
    target: 'es2022',
    sourcemap: true,
    // A class is shown by its own name, not by one that the bundler made.
    keepNames: true,
    logLevel: 'warning',
    ...options,
  });
}

const forNode = { platform: 'node', target: 'node20', packages: 'external' };

async function makeTypes() {
  const tsc = path.join(ROOT, 'node_modules', 'typescript', 'bin', 'tsc');
  const types = path.join(DIST, 'types');
  const made = `${types}.new`;
  fs.rmSync(made, { recursive: true, force: true });
  // Unchecked, which halves the time: npm test and npm run types do the checking.
  const args = [tsc, '-p', 'tsconfig.types.json', '--outDir', made, '--noCheck'];
  await runProgram(process.execPath, args, {
    log: 'types',
    what: 'making the type declarations',
    remedy: 'mend the errors shown above (npm run types lists all type errors)',
  });
  includeDataTypes(made);
  fs.rmSync(types, { recursive: true, force: true });
  fs.renameSync(made, types);
}

/** Calls the build function that another layer of src/ provides. */
async function makeWith(module, name, context) {
  const functions = await import(pathToFileURL(path.join(ROOT, module)).href);
  await functions[name](context);
}

/** Settles when the types have been made, if they are being made: another part reads them. */
let typesMade = Promise.resolve();

/** @type {Part[]} */
export const PARTS = [
  {
    name: 'library',
    inputs: [...LIBRARY, 'src/index.ts'],
    entry: 'src/index.ts',
    product: 'dist/index.js',
    make: () => bundle('src/index.ts', 'index.js', forNode),
  },
  {
    name: 'library for browsers',
    inputs: [...LIBRARY, 'src/index.ts', 'src/browser.ts'],
    entry: 'src/browser.ts',
    product: 'dist/browser.js',
    make: () => bundle('src/browser.ts', 'browser.js', { platform: 'browser' }),
  },
  {
    name: 'types',
    inputs: [...LIBRARY, 'src/index.ts', 'tsconfig.json', 'tsconfig.types.json'],
    entry: 'src/index.ts',
    product: 'dist/types/index.d.ts',
    make: () => (typesMade = makeTypes()),
  },
  {
    name: 'kernel',
    inputs: [...LIBRARY, 'src/kernel'],
    entry: 'src/kernel/build.mjs',
    product: 'dist/kernel',
    make: async (context) => {
      await typesMade;
      await makeWith('src/kernel/build.mjs', 'buildKernel', context);
    },
  },
  {
    name: 'JupyterLab extension',
    inputs: [...LIBRARY, 'src/lab', ...GUIDE, 'package.json'],
    entry: 'src/lab/build.mjs',
    product: 'dist/labextension',
    make: (context) => makeWith('src/lab/build.mjs', 'buildLab', context),
  },
  {
    name: 'kernel in the page',
    inputs: [
      ...LIBRARY,
      'src/browser.ts',
      'src/kernel',
      'src/lab/lite-kernel',
      'src/lab/remote.ts',
    ],
    entry: 'src/lab/lite-kernel/build.mjs',
    product: 'dist/lite-kernel',
    make: async (context) => {
      await typesMade;
      await makeWith('src/lab/lite-kernel/build.mjs', 'buildLiteKernel', context);
    },
  },
  {
    name: 'published pages',
    inputs: [
      ...LIBRARY,
      'src/index.ts',
      'src/browser.ts',
      'src/lab/render',
      'src/kernel',
      'src/publish',
    ],
    entry: 'src/publish/build.mjs',
    product: 'dist/publish/page.js',
    make: (context) => makeWith('src/publish/build.mjs', 'buildPublish', context),
  },
  {
    name: 'guide',
    inputs: [...GUIDE, 'package.json'],
    entry: 'src/guide/build.mjs',
    product: 'dist/guide/index.html',
    make: (context) => makeWith('src/guide/build.mjs', 'buildGuide', context),
  },
  {
    name: 'deck sheet',
    inputs: ['src/core', 'src/log', 'src/lab/render', 'src/publish/deck', 'package.json'],
    entry: 'src/publish/deck/build.mjs',
    product: 'dist/deck/deck-sheet.html',
    make: (context) => makeWith('src/publish/deck/build.mjs', 'buildDeck', context),
  },
  {
    name: 'command line',
    inputs: [...LIBRARY, 'src/index.ts', 'src/kernel', 'src/publish', 'src/cli'],
    entry: 'src/cli/main.ts',
    product: 'dist/cli.js',
    make: () => bundle('src/cli/main.ts', 'cli.js', forNode),
  },
];
