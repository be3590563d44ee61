import type ts from 'typescript';
import { cellModule, type CellModule, type Origin } from './cell-module.js';
import { GLOBALS_DECLARATION } from './globals-declaration.js';
import { MemoryFiles } from './memory-files.js';
import {
  inspectionOf,
  type Completions,
  type Diagnostic,
  type Inspection,
  type TypeEngine,
} from './type-engine.js';

const LIB = '/lib/lib.es2022.d.ts';
const GLOBALS = '/globals.d.ts';
const QUESTION = '/question.ts';

/** Complaints that do not fit cells: what a module may not do, but a cell may. */
const MISJUDGED = new Set([1375, 1378, 1431, 1432]);

/**
 * Judges cells with TypeScript's own language service, in any host. Each cell is a module that
 * takes the names it uses from the cells before it.
 */
export class LanguageServiceEngine implements TypeEngine {
  readonly #files: MemoryFiles;
  readonly #service: ts.LanguageService;
  readonly #origins = new Map<string, Origin>();
  readonly #checked = new Map<string, { module: string; cell: CellModule }>();
  #root = GLOBALS;
  #count = 0;

  /**
   * @param TS TypeScript itself (5.9)
   * @param files declarations by path: the standard library under `/lib/`, packages under `/node_modules/`
   * @param globals declarations of what the host has besides JavaScript's own globals
   */
  constructor(
    private readonly TS: typeof ts,
    files: Readonly<Record<string, string>>,
    globals: string,
  ) {
    this.#files = new MemoryFiles({ ...files, [GLOBALS]: globals + GLOBALS_DECLARATION });
    const options: ts.CompilerOptions = {
      target: TS.ScriptTarget.ES2022,
      module: TS.ModuleKind.ESNext,
      moduleResolution: TS.ModuleResolutionKind.Bundler,
      moduleDetection: TS.ModuleDetectionKind.Force,
      strict: false,
      esModuleInterop: true,
      experimentalDecorators: true,
      noEmit: true,
      lib: ['lib.es2022.d.ts'],
      types: [],
      skipLibCheck: true,
      skipDefaultLibCheck: true,
      allowImportingTsExtensions: true,
    };
    const host = this.#files.host(TS, options, LIB, () => [GLOBALS, this.#root]);
    this.#service = TS.createLanguageService(host, TS.createDocumentRegistry());
  }

  async check(id: string, source: string): Promise<readonly Diagnostic[]> {
    const module = `/cell-${++this.#count}`;
    const cell = cellModule(this.TS, source, this.#origins);
    const file = this.#open(`${module}.ts`, cell.text);
    this.#checked.clear();
    this.#checked.set(id, { module, cell });
    const grammar = this.#service.getSyntacticDiagnostics(file);
    const meaning = this.#service.getSemanticDiagnostics(file);
    // Grammar may be found wanting only behind the cell; types there are ours.
    return [...grammar, ...meaning.filter((d) => (d.start ?? 0) <= source.length)]
      .filter((d) => !MISJUDGED.has(d.code))
      .map((d) => this.#diagnostic(d, source));
  }

  async commit(id: string, names: readonly string[] | 'all'): Promise<void> {
    const checked = this.#checked.get(id);
    if (!checked) return;
    const { module, cell } = checked;
    for (const [name, kind] of cell.exports)
      if (names === 'all' || kind === 'type' || names.includes(name))
        this.#origins.set(name, { module, kind });
  }

  async complete(source: string, offset: number): Promise<Completions> {
    const file = this.#ask(source);
    const typed = /[\p{ID_Start}$_]?[\p{ID_Continue}$]*$/u.exec(source.slice(0, offset))?.[0] ?? '';
    const found = this.#service.getCompletionsAtPosition(file, offset, {});
    const items = (found?.entries ?? [])
      .filter(({ name }) => name.toLowerCase().startsWith(typed.toLowerCase()))
      .map(({ name, kind }) => ({ name, kind: String(kind) }));
    return { start: offset - typed.length, end: offset, items };
  }

  async inspect(source: string, offset: number): Promise<Inspection | null> {
    const info = this.#service.getQuickInfoAtPosition(this.#ask(source), offset);
    return info ? inspectionOf(info) : null;
  }

  #ask(source: string): string {
    return this.#open(QUESTION, cellModule(this.TS, source, this.#origins).text);
  }

  #open(file: string, text: string): string {
    this.#files.write(file, text);
    this.#root = file;
    return file;
  }

  #diagnostic({ start: from = 0, length = 1, code, messageText }: ts.Diagnostic, source: string) {
    const start = Math.min(from, source.length);
    const before = source.slice(0, start);
    return {
      code,
      message: this.TS.flattenDiagnosticMessageText(messageText, '\n'),
      line: before.split('\n').length,
      column: start - before.lastIndexOf('\n'),
      length: Math.max(1, length),
    };
  }
}
