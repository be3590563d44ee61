import { createRequire } from 'node:module';
import type ts from 'typescript';
import type {
  Converter,
  ConvertResult,
  Diagnostic as TslabDiagnostic,
} from 'tslab/dist/converter.js';
import {
  inspectionOf,
  type Completions,
  type Diagnostic,
  type Inspection,
  type TypeEngine,
} from '../../cells/index.js';

import { declareAsAny, declareNestedVars } from './declarations.js';
import { DeclaredCells, type Given } from './declared-cells.js';
import { isMisjudged } from './misjudged.js';
import { installVirtualModules } from './virtual-modules.js';

const load = createRequire(import.meta.url);

/** Judges cells with tslab's converter (TypeScript 5.0.4 inside). */
export class TslabEngine implements TypeEngine {
  readonly #ts = load('@tslab/typescript-for-tslab') as typeof ts;
  readonly #converter: Converter;
  /** Declarations of the names that earlier cells have set. */
  readonly #declared: DeclaredCells;
  #checked: { readonly id: string; readonly given: Given; readonly after: string } | null = null;

  constructor() {
    installVirtualModules(this.#ts, process.cwd());
    const { createConverter } = load('tslab/dist/converter') as {
      createConverter(options: object): Converter;
    };
    this.#converter = createConverter({ isJS: false, isBrowser: false });
    this.#converter.convert('', '');
    this.#declared = new DeclaredCells(this.#ts);
  }

  async check(id: string, source: string): Promise<readonly Diagnostic[]> {
    const given = this.#declared.for(source);
    const result = this.#convert(given.text, withoutExport(source));
    const diagnostics = merge(result.diagnostics.filter((d) => !isMisjudged(d)));
    const output = result.declOutput ?? declareAsAny(this.#ts, source, given.text);
    this.#checked = { id, given, after: declareNestedVars(this.#ts, source, output) };
    return diagnostics.map((d) => inside(toDiagnostic(d), source));
  }

  async commit(id: string, names: readonly string[] | 'all'): Promise<void> {
    if (this.#checked?.id !== id) return;
    this.#declared.replace(this.#checked.given, this.#checked.after, names);
    this.#checked = null;
  }

  async complete(source: string, offset: number): Promise<Completions> {
    const all = this.#declared.all;
    const { start, end, candidates, original } = this.#converter.complete(all, source, offset);
    const kinds = new Map(original?.entries.map((e) => [e.name, e.kind as string]));
    return {
      start,
      end,
      items: candidates.map((name) => ({ name, kind: kinds.get(name) ?? '' })),
    };
  }

  async inspect(source: string, offset: number): Promise<Inspection | null> {
    const info = this.#converter.inspect(this.#declared.all, source, offset);
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
  const mark =
    /^([ \t]*)export(?=\s+(?:const|let|var|function|async|class|abstract|enum|interface|type)\b)/gm;
  return source.replace(mark, '$1      ');
}
