import type ts from 'typescript';
import { BaseProgram, specifiersOf } from './base-program.js';
import type { ConverterHost, FileInside, TypeScriptInside } from './internals.js';
import { SourceFiles } from './source-files.js';

/** Where tslab's converter expects the declarations that it has asked for. */
const DECLARATIONS = 'outDir/__tslab__.d.ts';
/** A checker remembers every cell it has seen; after so many it is replaced by a new one. */
const CHECKER_LIFE = 150;
/** Cells with these change what other files mean: they must stand in the program. */
const AUGMENTS = /\bdeclare\s+(global|module)\b|^\s*\/\/\/\s*<reference\b/m;

/** How many files have been made of cells and of their declarations. */
let made = 0;

/** What the converter asks of the program that watches its files. */
type Builder = Pick<
  ts.EmitAndSemanticDiagnosticsBuilderProgram,
  'getSourceFile' | 'getProgram' | 'getAllDependencies' | 'emit'
>;

/**
 * In place of TypeScript's watch program, which makes a new program and a new checker for every text
 * it is given: one program and one checker are kept, and each cell is a further file that they judge.
 */
export class CellPrograms {
  readonly #srcName: string;
  readonly #declName: string;
  #base: BaseProgram;
  #decls: FileInside | null = null;
  #timer: unknown;
  #used = 0;

  constructor(
    private readonly TS: TypeScriptInside,
    readonly host: ConverterHost,
    ready: BaseProgram | null,
  ) {
    const [declName = '', srcName = ''] = host.rootFiles;
    this.#declName = declName;
    this.#srcName = srcName;
    this.#base = ready?.movedTo(host) ?? this.#makeBase();
    for (const name of host.rootFiles) host.watchFile(name, () => this.#schedule());
    this.#update();
  }

  close(): void {
    this.host.clearTimeout?.(this.#timer);
  }

  /** Replaces a checker that remembers many cells; to be called when nobody waits. */
  refresh(life = CHECKER_LIFE): void {
    if (this.#used < life) return;
    this.#used = 0;
    this.#decls = null;
    this.#base = this.#base.renewed();
    this.#base.program.getTypeChecker();
  }

  /** The program that the cells so far have led to. */
  get base(): BaseProgram {
    return this.#base;
  }

  #makeBase(): BaseProgram {
    const { TS, host } = this;
    return new BaseProgram({ TS, host, files: new SourceFiles(TS, host), specifiers: new Set() });
  }

  #schedule(): void {
    const { host } = this;
    if (this.#timer) host.clearTimeout?.(this.#timer);
    this.#timer = host.setTimeout?.(() => {
      this.#timer = undefined;
      this.#update();
    }, 0);
  }

  #update(): void {
    const decls = this.#declarations();
    const src = this.#parse(this.#srcName, this.host.readFile(this.#srcName) ?? '');
    const specifiers = [decls, src].flatMap((f) => specifiersOf(this.TS, f.text));
    const base = this.#baseFor(specifiers, decls, src);
    for (const file of [decls, src]) {
      file.resolvedModules = base.resolutions;
      this.TS.bindSourceFile(file, this.host.options);
    }
    this.#used++;
    this.host.afterProgramCreate?.(
      this.#builder(base, decls, src, specifiers) as ts.BuilderProgram,
    );
  }

  /** Declarations that have not changed keep their file, and so what the checker knows of it. */
  #declarations(): FileInside {
    const text = this.host.readFile(this.#declName) ?? '';
    if (this.#decls?.text !== text) this.#decls = this.#parse(this.#declName, text);
    return this.#decls;
  }

  /** The checker keeps complaints by file name: each cell has a name of its own. */
  #parse(name: string, text: string): FileInside {
    const unique = name.replace(/(\.d)?\.ts$/, `${++made}$&`);
    const target = this.host.options.target ?? this.TS.ScriptTarget.ES2022;
    const file = this.TS.createSourceFile(unique, text, target) as FileInside;
    file.path = file.resolvedPath = file.originalFileName = unique;
    return file;
  }

  #baseFor(specifiers: readonly string[], decls: FileInside, src: FileInside): BaseProgram {
    if ([decls, src].some((f) => AUGMENTS.test(f.text)))
      return this.#base.renewed(specifiers, [decls, src]);
    if (this.#base.dropChanged(specifiers) || !specifiers.every((s) => this.#base.reaches(s))) {
      this.#base = this.#base.renewed(specifiers);
    }
    return this.#base;
  }

  #builder(base: BaseProgram, decls: FileInside, src: FileInside, specifiers: string[]): Builder {
    const { program } = base;
    const byName = new Map([
      [this.#declName, decls],
      [this.#srcName, src],
    ]);
    return {
      getSourceFile: (name) => byName.get(name) ?? program.getSourceFile(name),
      getProgram: () => program,
      getAllDependencies: () => [this.#srcName, ...base.localFiles(specifiers)],
      emit: (file, write, _cancel, _onlyDeclarations, transformers) => {
        const skipped = { emitSkipped: true, diagnostics: [] };
        if (file !== src || !write) return skipped;
        // From here on the converter changes the declarations it was given.
        this.#decls = null;
        const toConverter: ts.WriteFileCallback = (name, text, mark) => {
          if (name.endsWith('.d.ts')) write(DECLARATIONS, text, mark);
        };
        const { afterDeclarations = [] } = transformers ?? {};
        return program.emit(src, toConverter, undefined, true, { afterDeclarations });
      },
    };
  }
}
