import {
  createConverter,
  type Converter,
  type ConvertResult,
  type Diagnostic as TslabDiagnostic,
} from 'tslab/dist/converter.js';
import {
  inspectionOf,
  type Completions,
  type Diagnostic,
  type Inspection,
  type TypeEngine,
} from '../../cells/types/type-engine.js';

import { declareAsAny, declareNestedVars } from './declarations.js';
import { DeclaredCells, type Given } from './declared-cells.js';
import { GlobalBlocks, isOfConverter, textOf, type Block } from './global-blocks.js';
import type { ConverterHost } from './kept/internals.js';
import { isMisjudged } from './misjudged.js';
import { TS } from './typescript-of-tslab.js';
import { installVirtualModules } from './virtual-modules.js';

/** Cells whose check makes V8 compile, and the checker resolve, what most cells need. */
const WARM_UP = [
  '1 + 1',
  'const a = [1, 2].map((x) => x * 2); function f(x: number): string { return `${x}` } f(a[0])',
  "import { angle, metres } from 'cocked-hat'",
  "const hs = angle('41°18.6′'), eye = metres(2.6); console.log([hs.degrees.toFixed(2), eye])",
  'class A { constructor(readonly n: number) {} } const text: string = new A(1).n',
];

/** What a check leaves for the cell's end. */
interface Checked {
  readonly id: string;
  readonly given: Given;
  readonly blocks: readonly Block[];
  readonly after: string;
}

/** Judges cells with tslab's converter (TypeScript 5.0.4 inside). */
export class TslabEngine implements TypeEngine {
  readonly #converter: Converter;
  /** Declarations of the names that earlier cells have set. */
  readonly #declared = new DeclaredCells(TS);
  readonly #globals = new GlobalBlocks(TS);
  #checked: Checked | null = null;

  constructor() {
    if (!TS.kept) installVirtualModules(TS, process.cwd());
    this.#converter = createConverter({ isJS: false, isBrowser: false });
    this.#converter.convert('', '');
  }

  /**
   * Checks a few cells ahead, so that the first of a reader is not slower than those after it. Completes
   * nothing: the collator for that could not be held in a snapshot.
   */
  warmUp(): void {
    for (const cell of WARM_UP) this.#convert('', cell);
  }

  /** An engine for the folder that this process is in now; what TypeScript has read is taken over. */
  inCurrentFolder(): TslabEngine {
    const before = nodeTypes(TS.kept?.host);
    TS.mayTakeOver = (host) => nodeTypes(host) === before;
    return new TslabEngine();
  }

  /** Does what need not be done while somebody waits. */
  refresh(): void {
    TS.kept?.refresh();
  }

  async check(id: string, source: string): Promise<readonly Diagnostic[]> {
    const { blocks, rest } = this.#globals.taken(source);
    const globals = this.#globals.before(blocks);
    const given = this.#declared.for(rest, globals + textOf(blocks));
    const result = this.#convert(globals + given.text, withoutExport(source));
    const complaints = result.diagnostics.filter((d) => !isMisjudged(d) && !isOfConverter(d));
    const diagnostics = merge(complaints);
    // With such a block in it the converter says nothing of what the cell declares.
    const emitted =
      blocks.length > 0 && complaints.length === 0
        ? this.#convert(globals + textOf(blocks) + given.text, withoutExport(rest))
        : result;
    const output = emitted.declOutput ?? declareAsAny(TS, rest, given.text);
    this.#checked = { id, given, blocks, after: declareNestedVars(TS, rest, output) };
    return diagnostics.map((d) => inside(toDiagnostic(d), source));
  }

  async commit(id: string, names: readonly string[] | 'all'): Promise<void> {
    if (this.#checked?.id !== id) return;
    this.#declared.replace(this.#checked.given, this.#checked.after, names);
    this.#globals.keep(this.#checked.blocks);
    this.#checked = null;
  }

  async complete(source: string, offset: number): Promise<Completions> {
    const all = this.#globals.before([]) + this.#declared.all;
    const { start, end, candidates, original } = this.#converter.complete(all, source, offset);
    const kinds = new Map(original?.entries.map((e) => [e.name, e.kind as string]));
    return {
      start,
      end,
      items: candidates.map((name) => ({ name, kind: kinds.get(name) ?? '' })),
    };
  }

  async inspect(source: string, offset: number): Promise<Inspection | null> {
    const info = this.#converter.inspect(
      this.#globals.before([]) + this.#declared.all,
      source,
      offset,
    );
    return info ? inspectionOf(info) : null;
  }

  /** tslab's emit throws on a few cells that its checker passes; such a cell has no declarations. */
  #convert(before: string, source: string): Pick<ConvertResult, 'diagnostics' | 'declOutput'> {
    try {
      return this.#converter.convert(before, source);
    } catch {
      return { diagnostics: [] };
    }
  }
}

/** The manifest of the Node types that a converter reads: as good as the types themselves. */
function nodeTypes(host: ConverterHost | undefined): string | undefined {
  const manifests = (host?.options.typeRoots ?? []).map((root) => `${root}/node/package.json`);
  return manifests.map((file) => host?.readFile(file)).find((text) => text !== undefined);
}

/** The converter lists the parts of one complaint apart; they belong in one message. */
function merge(diagnostics: readonly TslabDiagnostic[]): TslabDiagnostic[] {
  const merged: TslabDiagnostic[] = [];
  for (const d of diagnostics) {
    const last = merged.at(-1);
    const same = last && last.start.offset === d.start.offset && last.end.offset === d.end.offset;
    if (same && last.fileName === d.fileName) last.messageText += `\n  ${d.messageText}`;
    else merged.push({ ...d });
  }
  return merged;
}

/** What is found wanting only behind the cell is wanting at its end. */
function inside(diagnostic: Diagnostic, source: string): Diagnostic {
  const lines = source.split('\n');
  if (diagnostic.file || diagnostic.line <= lines.length) return diagnostic;
  return { ...diagnostic, line: lines.length, column: (lines.at(-1) ?? '').length + 1 };
}

function toDiagnostic(d: TslabDiagnostic): Diagnostic {
  return {
    code: d.code,
    message: d.messageText,
    line: d.start.line + 1,
    column: d.start.character + 1,
    length: Math.max(1, d.end.offset - d.start.offset),
    ...(d.fileName ? { file: d.fileName } : {}),
  };
}

/** The names of a cell are exported for the check anyway; doing it twice would be a complaint. */
function withoutExport(source: string): string {
  if (!/\bexport\b/.test(source)) return source;
  const file = TS.createSourceFile('cell.ts', source, TS.ScriptTarget.ES2022);
  let text = source;
  for (const statement of file.statements) {
    const marks = TS.canHaveModifiers(statement) ? (TS.getModifiers(statement) ?? []) : [];
    if (marks.some((m) => m.kind === TS.SyntaxKind.DefaultKeyword)) continue;
    const mark = marks.find((m) => m.kind === TS.SyntaxKind.ExportKeyword);
    if (mark) text = `${text.slice(0, mark.end - 6)}      ${text.slice(mark.end)}`;
  }
  return text;
}
