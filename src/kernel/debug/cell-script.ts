import { TraceMap, traceSegment, type EncodedSourceMap } from '@jridgewell/trace-mapping';
import type { MappedCell } from '../../cells/index.js';

/** A place in a text; both count from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** A place in a script as V8 counts: both from 0. */
export interface ScriptPlace {
  readonly lineNumber: number;
  readonly columnNumber?: number | undefined;
}

/** What the compiler puts in front of a cell's last value and of a class: V8 stops there for them. */
const PREFIX = /^(return \(|void \([\p{ID_Continue}$]+ = (?=class\b))/u;

/** V8 gives the end of `return x;` as the place of a return; the compiler adds nothing there that begins so. */
const NOTHING_FOLLOWS = /^([\s)}\],;/]|$)/;

/** A cell as V8 runs it, and the way back to its text. */
export class CellScript {
  readonly #lines: readonly string[];
  readonly #rewritten: TraceMap;
  readonly #types: TraceMap | null;

  constructor(js: string, { rewritten, types }: Pick<MappedCell, 'rewritten' | 'types'>) {
    this.#lines = js.split('\n');
    this.#rewritten = new TraceMap(mapOf(rewritten));
    this.#types = types === null ? null : new TraceMap(types as EncodedSourceMap);
  }

  /** Where in the cell the code at a place of the script stands; null for code that the compiler added. */
  placeOf({ lineNumber, columnNumber = 0 }: ScriptPlace): Place | null {
    const text = this.#lines[lineNumber] ?? '';
    const [prefix] = PREFIX.exec(text.slice(columnNumber)) ?? [];
    if (prefix) return this.#exactly(lineNumber, columnNumber + prefix.length);
    const place = this.#exactly(lineNumber, columnNumber);
    if (place || !NOTHING_FOLLOWS.test(text.slice(columnNumber))) return place;
    return this.#endingAt(lineNumber, columnNumber);
  }

  /** The end of a statement, in front of the closing signs that the compiler may have added to it. */
  #endingAt(lineNumber: number, column: number): Place | null {
    const before = this.#lines[lineNumber]?.slice(0, column) ?? '';
    const added = /[;)]{0,2}$/.exec(before)?.[0].length ?? 0;
    for (let back = 1; back <= added + 1 && back <= column; back++) {
      const place = this.#exactly(lineNumber, column - back);
      if (place) return place;
    }
    return null;
  }

  #exactly(lineNumber: number, column: number): Place | null {
    const found = traceSegment(this.#rewritten, lineNumber, column);
    if (!found || found.length === 1 || found[0] !== column) return null;
    const [, , line, jsColumn] = found;
    const typed = this.#types && traceSegment(this.#types, line, jsColumn);
    const shift = typed && typed.length > 1 ? jsColumn - typed[0] + (typed[3] ?? 0) : jsColumn;
    return { line: line + 1, column: shift + 1 };
  }

  /**
   * Where to stop for a line of the cell, out of the places where V8 can: at the first on that line,
   * else on the next line with code, else on the last one before.
   */
  stopFor<T extends ScriptPlace>(line: number, places: readonly T[]): Stop<T> | null {
    const stops = places.flatMap((script) => {
      const cell = this.placeOf(script);
      return cell ? [{ script, ...cell }] : [];
    });
    const after = stops.filter((s) => s.line >= line);
    const nearest = after.length > 0 ? minOf(after, (s) => s.line) : -minOf(stops, (s) => -s.line);
    const onLine = stops.filter((s) => s.line === nearest);
    const first = minOf(onLine, (s) => s.column);
    return onLine.find((s) => s.column === first) ?? null;
  }
}

export interface Stop<T extends ScriptPlace> extends Place {
  readonly script: T;
}

function minOf<T>(items: readonly T[], value: (item: T) => number): number {
  return Math.min(...items.map(value));
}

function mapOf(mappings: string): EncodedSourceMap {
  return { version: 3, names: [], sources: ['cell.ts'], mappings };
}
