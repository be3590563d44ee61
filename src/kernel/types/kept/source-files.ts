import type ts from 'typescript';
import type { ConverterHost, TypeScriptInside } from './internals.js';

interface Kept {
  readonly file: ts.SourceFile;
  /** Set for files that their author may change while the kernel runs. */
  readonly version: string | null;
}

/** Files as TypeScript has parsed them; those of packages are parsed once and for all. */
export class SourceFiles {
  constructor(
    private readonly TS: TypeScriptInside,
    private readonly host: ConverterHost,
    private readonly kept = new Map<string, Kept>(),
  ) {}

  /** The same files for another converter. */
  readBy(host: ConverterHost): SourceFiles {
    return new SourceFiles(this.TS, host, this.kept);
  }

  get(
    name: string,
    options: ts.ScriptTarget | ts.CreateSourceFileOptions,
  ): ts.SourceFile | undefined {
    const known = this.kept.get(name);
    if (known) return known.file;
    const text = this.host.readFile(name);
    if (text === undefined) return undefined;
    const file = this.TS.createSourceFile(name, text, options);
    this.kept.set(name, { file, version: isLocal(name) ? this.#version(name) : null });
    return file;
  }

  /** Forgets a local file that has changed since it was parsed; tells whether it has. */
  dropIfChanged(name: string): boolean {
    const known = this.kept.get(name);
    if (!known?.version || known.version === this.#version(name)) return false;
    return this.kept.delete(name);
  }

  #version(name: string): string {
    const { createHash, getModifiedTime } = this.TS.sys;
    const text = this.host.readFile(name) ?? '';
    return createHash?.(text) ?? String(getModifiedTime?.(name)?.getTime());
  }
}

/** True for files of the notebook's author. */
export function isLocal(name: string): boolean {
  return !/\/node_modules\/|\/lib\.[\w.]*d\.ts$/.test(name);
}
