/**
 * Builds the script of published pages, several times: whole, and without more and more of the parts that few notebooks use. The page is carried in every
 * published notebook, so what no page can use is left out; each omission says so where it is met.
 */
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { SMALL_DATA, smallData } from './small-data.mjs';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** Names that a module exports. */
async function exportsOf(esbuild, file) {
  const { metafile } = await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: [file],
    bundle: true,
    write: false,
    metafile: true,
    format: 'esm',
    packages: 'external',
    loader: { '.css': 'text', '.woff2': 'empty' },
    outdir: 'unused',
    logLevel: 'error',
  });
  return Object.values(metafile.outputs).find((output) => output.entryPoint).exports;
}

/** A module with the same names, each of which says that it is not here. */
function absent(names, why) {
  const lines = names.map((name) =>
    name === 'default'
      ? `export default missing('default');`
      : `const _${name} = missing('${name}'); export { _${name} as ${name} };`,
  );
  return `const refuse = (name) => { throw new Error(name + ' ' + ${JSON.stringify(why)}); };
function missing(name) {
  const target = function () { refuse(name); };
  return new Proxy(target, {
    construct: () => refuse(name),
    get: (t, key) => typeof key === 'symbol' || key in t ? t[key] : () => refuse(name + '.' + key),
  });
}
${lines.join('\n')}`;
}

/** Replaces modules whose path matches by what `contents` gives. */
function replace(name, filter, contents) {
  return {
    name,
    setup({ onLoad }) {
      onLoad({ filter }, async ({ path: file }) => ({
        contents: await contents(file),
        loader: 'js',
        resolveDir: path.dirname(file),
      }));
    },
  };
}

/** Of sucrase only the TypeScript part is called; Flow, JSX and CommonJS are left out. */
const UNUSED_OF_SUCRASE =
  /sucrase[\\/]dist[\\/]esm[\\/](?:transformers[\\/](?:CJSImport|JSX|JestHoist|ReactDisplayName|ReactHotLoader|Flow)\w*|parser[\\/]plugins[\\/](?:flow|jsx[\\/]\w+)|CJSImportProcessor|Options-gen-types|util[\\/]formatTokens)\.js$/;

function stubOf(file) {
  const source = fs.readFileSync(file, 'utf8');
  const names = [
    ...source.matchAll(/export\s+(?:default\s+)?(?:function|class|const|let|var)\s+(\w+)/g),
  ];
  const plain = names.filter(([all]) => !/default/.test(all)).map(([, name]) => name);
  const list = /export\s+default/.test(source) ? [...plain, 'default'] : plain;
  return absent(list, 'belongs to a part of sucrase that is left out of published pages');
}

/** Options of sucrase come from us, and need no checking. */
const NO_CHECKER = replace(
  'no checker',
  /ts-interface-checker[\\/]dist[\\/]index\.js$/,
  () => 'export const createCheckers = () => ({ Options: { strictCheck() {} } });',
);

/** Style sheets are carried as text, without the blanks that a reader wants. */
const SMALL_CSS = {
  name: 'small css',
  setup({ onLoad, esbuild }) {
    onLoad({ filter: /\.css$/ }, async ({ path: file }) => {
      const sheet = fs.readFileSync(file, 'utf8');
      const { code } = await esbuild.transform(sheet, { loader: 'css', minify: true });
      return { contents: code, loader: 'text' };
    });
  },
};

/** @param {Record<string, string[]>} left parts of the library that are left out, and their names */
const plugins = (left) => [
  replace(
    'coarse coast',
    /world-atlas[\\/]land-\d+m\.json$/,
    () =>
      'export default { type: "Topology", objects: { land: { type: "GeometryCollection", geometries: [] } }, arcs: [] };',
  ),
  replace('no GPX', /@xmldom[\\/]xmldom[\\/]lib[\\/]index\.js$/, () =>
    absent(
      ['DOMParser', 'XMLSerializer', 'onErrorStopParsing'],
      'reads GPX, and published pages do not',
    ),
  ),
  replace('sucrase', UNUSED_OF_SUCRASE, stubOf),
  NO_CHECKER,
  replace('no reports of types', /types[\\/]describe-diagnostics\.ts$/, () =>
    absent(['describeDiagnostics', 'warnOf'], 'reports on types, which pages do not check'),
  ),
  SMALL_CSS,
  replace('small data', SMALL_DATA, smallData),
  ...Object.entries(left).map(([file, names]) =>
    replace(
      `without ${file}`,
      new RegExp(`${file.replaceAll('/', '[\\\\/]').replace('.', '\\.')}$`),
      () =>
        absent(
          names,
          'is not in this page: no cell of it used this part of the library when it was published',
        ),
    ),
  ),
];

async function script(esbuild, outfile, left) {
  const built = await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: ['src/publish/client/main.ts'],
    outfile,
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2022',
    platform: 'browser',
    legalComments: 'none',
    logLevel: 'warning',
    metafile: true,
    loader: { '.css': 'text', '.woff2': 'empty' },
    define: { 'import.meta.url': '""' },
    plugins: plugins(left),
  });
  return built.metafile;
}

/** Parts of the library that a page carries only when its notebook names something of them. */
const SELDOM_USED = [
  'src/magnetic-variation.ts',
  'src/log/index.ts',
  'src/core/methods/index.ts',
  'src/core/plan/index.ts',
  'src/views/instrument/index.ts',
  'src/lab/render/instrument/instrument.ts',
  'src/views/edit/index.ts',
  'src/lab/render/edit/edit.ts',
  'src/views/bench/index.ts',
  'src/lab/render/bench/bench.ts',
  'src/views/sky/index.ts',
  'src/lab/render/sky/sky.ts',
  'src/lab/render/passage/passage.ts',
  'src/lab/render/log/log-table.ts',
];

/** What a page of methods and planning has more (26 kB gz), and one of logs (another 120 kB, most of it arquero). */
const METHODS = SELDOM_USED.filter((file) => /(?:methods|plan|sky)[/.]/.test(file));
const LOGS = SELDOM_USED.filter((file) => /log[/-]|passage/.test(file));

/** Views with plots of their own: 13 kB gz that a page of reductions and charts does without. */
const PLOTS = [
  'src/views/residuals/index.ts',
  'src/lab/render/residuals/residuals.ts',
  'src/views/uncertainty/index.ts',
  'src/lab/render/uncertainty/uncertainty.ts',
];

/**
 * What a module exports, fetched when first used; for classes and functions only. The sandbox's process is started for each
 * answer, and few answers need these.
 */
const lazily = (names, file) => `let whole;
const load = () => (whole ??= require(${JSON.stringify(file)}));
${names
  .map(
    (name) => `export const ${name} = new Proxy(function () {}, {
  apply: (_t, self, args) => Reflect.apply(load().${name}, self, args),
  construct: (_t, args) => new (load().${name})(...args),
  get: (_t, key) => load().${name}[key],
});`,
  )
  .join('\n')}`;

/** A package that is loaded at its first use. */
const lazyPackage = (name, names) => ({
  name: `${name} when first used`,
  setup({ onResolve, onLoad }) {
    onResolve({ filter: new RegExp(`^${name}$`) }, async ({ kind, importer, resolveDir }) => {
      if (kind === 'require-call') return undefined;
      return { path: name, namespace: 'lazy', pluginData: { importer, resolveDir } };
    });
    onLoad({ filter: new RegExp(`^${name}$`), namespace: 'lazy' }, ({ pluginData }) => ({
      contents: lazily(names, name),
      loader: 'js',
      resolveDir: pluginData.resolveDir,
    }));
  },
});

/** Bundles a file into one that a process of Node runs as CommonJS. */
const commonJs = (esbuild, entry, outfile, more) =>
  esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: [entry],
    outfile,
    bundle: true,
    minify: true,
    format: 'cjs',
    target: 'node20',
    platform: 'node',
    legalComments: 'none',
    logLevel: 'warning',
    ...more,
  });

/**
 * The process that runs cells of published and returned notebooks: one file with the library and its packages, since
 * a process is started for each answer and most of its time would go into reading modules. It stands in dist/ itself,
 * from where the library finds ../data; sandbox.cjs runs it (src/publish/sandbox/start.ts).
 */
async function sandbox(esbuild, dist) {
  for (const file of fs.readdirSync(dist))
    if (/^sandbox.*\.(?:cache|c?js)$/.test(file)) fs.rmSync(path.join(dist, file));
  await commonJs(esbuild, 'src/publish/sandbox/start.ts', path.join(dist, 'sandbox.cjs'));
  await commonJs(esbuild, 'src/publish/sandbox/child.ts', path.join(dist, 'sandbox-program.js'), {
    // A class is shown by its own name, not by one that the bundler made.
    keepNames: true,
    external: ['typescript', 'tslab', 'tslab/*', '@tslab/*', 'zeromq'],
    // The sources of packages, of which parts can be left out, rather than what was made of them for Node.
    mainFields: ['module', 'main'],
    define: { 'import.meta.url': '__programUrl' },
    banner: {
      js: "const __programUrl = require('node:url').pathToFileURL(__filename).href;",
    },
    plugins: [
      replace('sucrase', UNUSED_OF_SUCRASE, stubOf),
      NO_CHECKER,
      lazyPackage('@xmldom/xmldom', ['DOMParser', 'XMLSerializer', 'onErrorStopParsing']),
      lazyPackage('node-inspect-extracted', ['inspect', 'formatWithOptions']),
    ],
  });
}

/**
 * @param {{ root?: string, dist?: string, outdir?: string }} context `outdir` is dist/publish unless given
 * @returns what each script is made of, as esbuild's metafiles
 */
export async function buildPublish({ dist = path.join(ROOT, 'dist'), outdir } = {}) {
  const esbuild = await import('esbuild');
  const target = outdir ?? path.join(dist, 'publish');
  fs.mkdirSync(target, { recursive: true });
  const but = (...kept) => SELDOM_USED.filter((file) => !kept.flat().includes(file));
  const made = {
    small: [...SELDOM_USED, ...PLOTS],
    plots: SELDOM_USED,
    methods: but(METHODS),
    logs: but(METHODS, LOGS),
    full: [],
  };
  const scripts = {
    small: 'page.js',
    plots: 'page-plots.js',
    methods: 'page-methods.js',
    logs: 'page-logs.js',
    full: 'page-whole.js',
  };
  const names = {};
  for (const file of made.small) names[file] = await exportsOf(esbuild, file);
  const metafiles = {};
  const offered = [];
  for (const [name, files] of Object.entries(made)) {
    const left = Object.fromEntries(files.map((file) => [file, names[file]]));
    metafiles[name] = await script(esbuild, path.join(target, scripts[name]), left);
    offered.push({ script: scripts[name], without: Object.values(left).flat() });
  }
  if (outdir === undefined) await sandbox(esbuild, dist);
  fs.writeFileSync(path.join(target, 'scripts.json'), `${JSON.stringify(offered)}\n`);
  const css = (file) => fs.readFileSync(path.join(ROOT, 'src', 'publish', 'css', file), 'utf8');
  const sheets = ['colours.css', 'page.css', 'page-narrow.css'].map(css).join('');
  const page = await esbuild.transform(sheets, { loader: 'css', minify: true });
  fs.writeFileSync(path.join(target, 'page.css'), page.code);
  fs.writeFileSync(path.join(target, 'paper.css'), css('paper.css'));
  return metafiles;
}
