import type ts from 'typescript';
import type { ConverterHost, FileInside, Resolutions, TypeScriptInside } from './internals.js';
import { isLocal, type SourceFiles } from './source-files.js';

/** A file that imports whatever cells have imported, so that it is in the program. */
const IMPORTS = '__imports__.ts';

export interface BaseOptions {
  readonly TS: TypeScriptInside;
  readonly host: ConverterHost;
  readonly files: SourceFiles;
  readonly specifiers: ReadonlySet<string>;
  /** Cells that change the global scope or another module, and so must be in the program themselves. */
  readonly cells?: readonly FileInside[];
  readonly old?: ts.Program | undefined;
  /** The program, where it has been made already. */
  readonly program?: ts.Program;
}

/** The program that cells stand in without being part of it: the library and what they import. */
export class BaseProgram {
  readonly program: ts.Program;
  readonly resolutions: Resolutions;
  readonly specifiers: Set<string>;
  readonly #host: ts.CompilerHost;
  #declared: ReadonlySet<string> | null = null;

  constructor(private readonly options: BaseOptions) {
    const { TS, host, specifiers, cells = [], old, program: made } = options;
    this.specifiers = new Set(specifiers);
    const imports = this.#imports;
    const text = [...specifiers].map((s) => `import ${JSON.stringify(s)};\n`).join('');
    this.#host = this.#compilerHost(imports, `export {};\n${text}`, cells);
    this.program =
      made ??
      TS.createProgram({
        rootNames: [imports, ...cells.map((cell) => cell.fileName)],
        options: host.options,
        host: this.#host,
        ...(old ? { oldProgram: old } : {}),
      });
    const file = made ? undefined : (this.program.getSourceFile(imports) as FileInside);
    this.resolutions = file?.resolvedModules ?? TS.createModeAwareCache();
  }

  /** A program with further imports, or with a checker that remembers nothing. */
  renewed(specifiers: Iterable<string> = [], cells: readonly FileInside[] = []): BaseProgram {
    const all = new Set([...this.specifiers, ...specifiers]);
    const { TS, host, files } = this.options;
    return new BaseProgram({ TS, host, files, specifiers: all, cells, old: this.program });
  }

  /** The same program for a converter in another folder, where specifiers may lead elsewhere. */
  movedTo(host: ConverterHost): BaseProgram {
    const { TS, files } = this.options;
    const { specifiers, program } = this;
    return new BaseProgram({ TS, host, files: files.readBy(host), specifiers, program });
  }

  get #imports(): string {
    return `${this.options.host.getCurrentDirectory()}/${IMPORTS}`;
  }

  /** True if a specifier leads to a file of the program; one that leads nowhere may do so later. */
  reaches(specifier: string): boolean {
    const known = this.resolutions.get(specifier, undefined);
    if (known?.resolvedModule || this.#declaresModule(specifier)) return true;
    const { TS, host } = this.options;
    const found = TS.resolveModuleName(specifier, this.#imports, host.options, this.#host);
    const name = found.resolvedModule?.resolvedFileName;
    if (!name || !this.program.getSourceFile(name)) return false;
    this.resolutions.set(specifier, undefined, found);
    return true;
  }

  /** True for Node's own modules, which are declared and lie in no file of their own. */
  #declaresModule(specifier: string): boolean {
    const modules = this.program.getTypeChecker().getAmbientModules();
    this.#declared ??= new Set(modules.map(({ name }) => name.slice(1, -1)));
    return this.#declared.has(specifier);
  }

  /** The author's own files that a cell depends on, through whatever they import. */
  localFiles(specifiers: Iterable<string>): string[] {
    const found = new Set<string>();
    const follow = (resolutions: Resolutions | undefined, names: Iterable<string>): void => {
      for (const specifier of names) {
        const name = resolutions?.get(specifier, undefined)?.resolvedModule?.resolvedFileName;
        const file =
          name && !found.has(name) && isLocal(name) ? this.program.getSourceFile(name) : null;
        if (!name || !file) continue;
        found.add(name);
        const { resolvedModules } = file as FileInside;
        follow(resolvedModules, specifiersOf(this.options.TS, file.text));
      }
    };
    follow(this.resolutions, specifiers);
    return [...found];
  }

  /** Forgets local files of a cell that have changed; tells whether any has. */
  dropChanged(specifiers: Iterable<string>): boolean {
    const { files } = this.options;
    return this.localFiles(specifiers).filter((name) => files.dropIfChanged(name)).length > 0;
  }

  #compilerHost(imports: string, text: string, cells: readonly FileInside[]): ts.CompilerHost {
    const { TS, host, files } = this.options;
    const own = new Map<string, ts.SourceFile>(cells.map((cell) => [cell.fileName, cell]));
    own.set(
      imports,
      TS.createSourceFile(imports, text, host.options.target ?? TS.ScriptTarget.ES2022),
    );
    return {
      getSourceFile: (name, options) => own.get(name) ?? files.get(name, options),
      getDefaultLibFileName: (options) => host.getDefaultLibFileName(options),
      ...(host.getDefaultLibLocation ? { getDefaultLibLocation: host.getDefaultLibLocation } : {}),
      writeFile: () => undefined,
      getCurrentDirectory: () => host.getCurrentDirectory(),
      useCaseSensitiveFileNames: () => host.useCaseSensitiveFileNames(),
      getCanonicalFileName: (name) => name,
      getNewLine: () => '\n',
      fileExists: (name) => own.has(name) || host.fileExists(name),
      readFile: (name) => host.readFile(name),
      directoryExists: (name) => host.directoryExists?.(name) ?? true,
      getDirectories: (name) => host.getDirectories?.(name) ?? [],
      realpath: (name) => host.realpath?.(name) ?? name,
    };
  }
}

/** Specifiers of imports in a text, dynamic ones and those of types too. */
export function specifiersOf(TS: TypeScriptInside, text: string): string[] {
  return TS.preProcessFile(text, true, true).importedFiles.map((f) => f.fileName);
}
