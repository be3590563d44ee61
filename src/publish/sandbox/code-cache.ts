import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';

const MAKING_MS = 20_000;
const known = new Map<string, string | undefined>();

/**
 * The file with the sandbox program as V8 compiled it, made at the first call beside the program; its name holds Node's
 * version, V8's flags and the program's checksum, since V8 itself compares the program by its length alone. It is as trusted as the
 * program, and lies where only who may change the program may write. @returns undefined where it cannot be made, and
 * then the program is compiled from its text
 */
export function codeCache(folder: string, v8Flags: readonly string[]): string | undefined {
  const key = [folder, ...v8Flags].join(' ');
  if (!known.has(key)) known.set(key, made(folder, v8Flags));
  return known.get(key);
}

function made(folder: string, v8Flags: readonly string[]): string | undefined {
  const sum = createHash('sha256')
    .update([process.version, process.arch, ...v8Flags].join(' '))
    .update(fs.readFileSync(path.join(folder, 'sandbox-program.js')))
    .update(fs.readFileSync(path.join(folder, 'sandbox.cjs')))
    .digest('hex');
  const file = path.join(folder, `sandbox-${sum.slice(0, 24)}.cache`);
  if (fs.existsSync(file)) return file;
  const fresh = `${file}.${process.pid}`;
  try {
    fs.accessSync(folder, fs.constants.W_OK);
    const words = [...v8Flags, path.join(folder, 'sandbox.cjs'), '--keep', fresh];
    spawnSync(process.execPath, words, { stdio: 'ignore', timeout: MAKING_MS, cwd: folder });
    fs.renameSync(fresh, file);
    return file;
  } catch {
    return undefined;
  } finally {
    fs.rmSync(fresh, { force: true });
  }
}
