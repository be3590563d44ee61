/** Builds the judge of types: one file with TypeScript in it, and the snapshot it starts from. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';
import { snapshotName } from './snapshot-name.mjs';

/** Puts our programs between TypeScript and tslab's converter, and tells the latter where its package is. */
const keepProgram = {
  name: 'keep-program',
  setup({ onResolve, onLoad }) {
    const shim = { path: 'typescript-of-tslab', namespace: 'keep-program' };
    onResolve({ filter: /^@tslab\/typescript-for-tslab$/ }, () => shim);
    onLoad({ filter: /.*/, namespace: shim.namespace }, () => ({
      contents: `module.exports = require('./kept/keep-program.ts').keepProgram(require('@tslab/typescript-for-tslab/lib/typescript.js'));`,
      resolveDir: import.meta.dirname,
    }));
    onLoad({ filter: /[\\/]tslab[\\/]dist[\\/]converter\.js$/ }, ({ path: file }) => ({
      contents: fs.readFileSync(file, 'utf8').replaceAll('__dirname', 'globalThis.tslabFolder'),
    }));
  },
};

/**
 * @param {{ root: string, outdir: string }} context the checkout and the kernel's folder
 */
export async function buildTypes({ root, outdir }) {
  const common = {
    absWorkingDir: root,
    bundle: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    minify: true,
    logLevel: 'warning',
  };
  const outfile = path.join(outdir, 'types.cjs');
  await build({
    ...common,
    entryPoints: [path.join(import.meta.dirname, 'main.ts')],
    outfile,
    define: { 'import.meta.url': 'ownUrl' },
    banner: { js: "const ownUrl = require('node:url').pathToFileURL(__filename).href;" },
    plugins: [keepProgram],
  });
  const snapshot = path.join(outdir, snapshotName(root, outfile));
  makeSnapshot({ root, program: outfile, snapshot });
}

/** Without a snapshot the kernel works as well, only later: so none is no failure of the build. */
function makeSnapshot({ root, program, snapshot }) {
  const kept = path.join(root, '.cache', 'types-snapshot', fingerprint(root, program));
  if (!fs.existsSync(kept)) {
    fs.mkdirSync(path.dirname(kept), { recursive: true });
    const making = `${kept}.${process.pid}`;
    const { status, stderr } = spawnSync(
      process.execPath,
      ['--snapshot-blob', making, '--build-snapshot', program],
      { cwd: root, encoding: 'utf8' },
    );
    if (status !== 0) {
      console.warn(
        `kernel: no snapshot of the type checker, so it starts later (${stderr.trim().split('\n').at(-1)})`,
      );
      return;
    }
    dropOld(path.dirname(kept));
    fs.renameSync(making, kept);
  }
  try {
    fs.linkSync(kept, snapshot);
  } catch {
    fs.copyFileSync(kept, snapshot);
  }
}

/** A snapshot takes 45 MB; those of the last few builds are enough. */
function dropOld(folder) {
  const files = fs.readdirSync(folder).filter((name) => name.endsWith('.blob'));
  const aged = files.map((name) => ({ name, made: fs.statSync(path.join(folder, name)).mtimeMs }));
  aged.sort((a, b) => b.made - a.made);
  for (const { name } of aged.slice(2)) fs.rmSync(path.join(folder, name), { force: true });
}

/** Of all that is in a snapshot: the program, our declarations, the Node that made it. */
function fingerprint(root, program) {
  const hash = createHash('sha1').update(`${process.version} ${process.arch} ${root}`);
  hash.update(fs.readFileSync(program));
  const types = path.join(root, 'dist', 'types');
  const names = fs.existsSync(types) ? fs.readdirSync(types, { recursive: true }).sort() : [];
  for (const name of names)
    if (name.endsWith('.d.ts')) hash.update(name).update(fs.readFileSync(path.join(types, name)));
  return `${hash.digest('hex').slice(0, 16)}.blob`;
}
