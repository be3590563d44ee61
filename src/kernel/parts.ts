/** Parts of the kernel are files of their own, so that none is read before it is needed. */
import fs from 'node:fs';
import { createRequire, Module } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import vm from 'node:vm';
import type * as debug from './debug/adapter.js';
import type * as isComplete from './front/is-complete.js';
import type * as cells from './host/cells-thread.js';

interface Parts {
  readonly cells: typeof cells;
  readonly 'is-complete': typeof isComplete;
  readonly debugger: typeof debug;
}

/** What V8 compiled is kept when the first cells have been run. */
const KEEP_AFTER_MS = 30_000;

/** Loads a part, from what V8 compiled of it before if that was kept for this Node. */
export function loadPart<Name extends keyof Parts>(name: Name): Parts[Name] {
  const { exports, script, kept } = compilePart(name);
  if (script.cachedDataRejected !== false)
    setTimeout(() => keepCompiled(script, kept), KEEP_AFTER_MS).unref();
  return exports as Parts[Name];
}

/** Keeps what V8 compiles of a part now; the build does so. */
export function keepPart(name: keyof Parts): void {
  const { script, kept } = compilePart(name);
  keepCompiled(script, kept);
}

function compilePart(name: string) {
  const file = fileURLToPath(new URL(`./${name}.cjs`, import.meta.url));
  const source = fs.readFileSync(file, 'utf8');
  // V8 compares Node's version, the flags and the length of the source by itself; the name tells them apart.
  const kept = file.replace(/cjs$/, `${process.version}-${process.arch}-${source.length}.cache`);
  const cachedData = fs.existsSync(kept) ? fs.readFileSync(kept) : undefined;
  const script = new vm.Script(Module.wrap(source), {
    filename: file,
    cachedData,
    importModuleDynamically: vm.constants.USE_MAIN_CONTEXT_DEFAULT_LOADER,
  });
  const module = { exports: {} };
  const run = script.runInThisContext() as (...words: unknown[]) => void;
  run(module.exports, createRequire(file), module, file, path.dirname(file));
  return { exports: module.exports, script, kept };
}

/** A folder that may not be written to, as that of an installed package, is no failure. */
function keepCompiled(script: vm.Script, kept: string): void {
  const making = `${kept}.${process.pid}`;
  try {
    fs.writeFileSync(making, script.createCachedData());
    fs.renameSync(making, kept);
  } catch {
    fs.rmSync(making, { force: true });
  }
}
