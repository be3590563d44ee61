/**
 * `npm run packages`: the npm package and the wheel, from what is built in dist/. The wheel holds the npm package
 * with all that it needs at run time, so that `pip install` fetches nothing else but Node.
 */
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { wordsGiven } from '../../cli/bootstrap/words-given.mjs';
import { copyLogo, kernelSpec } from '../../kernel/kernelspec.mjs';
import { pyproject } from './pyproject.mjs';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const HERE = fileURLToPath(new URL('./', import.meta.url));
const PYTHON = path.join(
  ROOT,
  '.env',
  process.platform === 'win32' ? 'Scripts/python.exe' : 'bin/python',
);
const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';

const quiet = (program, words, cwd) =>
  execFileSync(program, words, {
    cwd,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
    shell: process.platform === 'win32',
  });

/** The npm package. @returns the path of the .tgz */
function packNpm(out) {
  const printed = quiet(
    npm,
    ['pack', '--json', '--ignore-scripts', '--pack-destination', out],
    ROOT,
  );
  const packed = JSON.parse(printed.slice(printed.search(/[[{]/)));
  const entry = Array.isArray(packed) ? packed[0] : Object.values(packed)[0];
  return path.join(out, path.basename(entry.filename));
}

/** Packages that others list for compiling themselves; ours come compiled. */
const NOT_AT_RUN_TIME = ['rollup', '@rollup', '.bin', '.package-lock.json', 'node-addon-api'];

/** Fills a folder with the npm package and its dependencies, as an installation would. */
function installProgram(tarball, folder) {
  fs.mkdirSync(folder, { recursive: true });
  fs.writeFileSync(path.join(folder, 'package.json'), '{"name":"program","private":true}\n');
  quiet(
    npm,
    ['install', '--omit=dev', '--no-audit', '--no-fund', '--ignore-scripts', tarball],
    folder,
  );
  const modules = path.join(folder, 'node_modules');
  for (const name of NOT_AT_RUN_TIME)
    fs.rmSync(path.join(modules, name), { recursive: true, force: true });
  for (const entry of fs.readdirSync(modules, { recursive: true, withFileTypes: true }))
    if (entry.isFile() && /\.(?:map|markdown|flow)$/.test(entry.name))
      fs.rmSync(path.join(entry.parentPath, entry.name));
  for (const file of ['package.json', 'package-lock.json'])
    fs.rmSync(path.join(folder, file), { force: true });
}

/** kernel.json of the wheel: Jupyter puts its own Python in place of the word python. */
function wheelKernelSpec() {
  const spec = kernelSpec({ node: 'node', dist: 'dist' });
  return { ...spec, argv: ['python', '-m', 'cocked_hat.kernel', '{connection_file}'] };
}

/** The wheel. @returns the path of the .whl */
function buildWheel(tarball, out) {
  const stage = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-wheel-'));
  try {
    fs.cpSync(path.join(HERE, 'python'), stage, {
      recursive: true,
      filter: (f) => !f.includes('__pycache__'),
    });
    installProgram(tarball, path.join(stage, 'cocked_hat', 'program'));
    const inside = path.join(stage, 'cocked_hat', 'program', 'node_modules', 'cocked-hat');
    const manifest = JSON.parse(fs.readFileSync(path.join(inside, 'package.json'), 'utf8'));
    fs.writeFileSync(path.join(stage, 'pyproject.toml'), pyproject(manifest));
    for (const file of ['LICENSE', 'NOTICE'])
      fs.copyFileSync(path.join(ROOT, file), path.join(stage, file));
    const kernel = path.join(stage, 'share', 'kernels', 'cocked-hat');
    fs.mkdirSync(kernel, { recursive: true });
    fs.writeFileSync(
      path.join(kernel, 'kernel.json'),
      `${JSON.stringify(wheelKernelSpec(), null, 2)}\n`,
    );
    copyLogo(kernel);
    const extension = path.join(stage, 'share', 'labextensions', 'cocked-hat');
    fs.cpSync(path.join(inside, 'dist', 'labextension'), extension, { recursive: true });
    quiet(PYTHON, ['-m', 'hatchling', 'build', '-t', 'wheel', '-d', out], stage);
    return path.join(
      out,
      fs.readdirSync(out).find((f) => f.endsWith('.whl')),
    );
  } finally {
    fs.rmSync(stage, { recursive: true, force: true });
  }
}

/** @returns {{ npm: string, wheel: string }} paths of the two packages */
export function buildPackages(out) {
  if (!fs.existsSync(path.join(ROOT, 'dist', 'kernel')))
    throw new Error('dist/ is not built: run npm run build first');
  fs.mkdirSync(out, { recursive: true });
  for (const file of fs.readdirSync(out))
    if (/\.(?:tgz|whl)$/.test(file)) fs.rmSync(path.join(out, file));
  const tarball = packNpm(out);
  return { npm: tarball, wheel: buildWheel(tarball, out) };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const USAGE = `npm run packages [-- -o FOLDER]

Makes the npm package and the wheel from what is built in dist/, into .cache/packages or FOLDER.`;
  const { values } = wordsGiven(USAGE, {
    output: { type: 'string', short: 'o', default: path.join(ROOT, '.cache', 'packages') },
  });
  for (const [kind, file] of Object.entries(buildPackages(path.resolve(values.output)))) {
    const mb = (fs.statSync(file).size / 1e6).toFixed(1);
    console.log(`${kind}: ${file} (${mb} MB)`);
  }
}
