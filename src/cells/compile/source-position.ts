import { originalPositionFor, TraceMap, type EncodedSourceMap } from '@jridgewell/trace-mapping';
import type MagicString from 'magic-string';
import type { Stripped } from './strip-types.js';

/** A place in a text; both count from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Source maps (version 3) of a cell: mappings of the rewriting, and the map of the removal of types. */
export interface CellMappings {
  readonly rewritten: string;
  readonly types: object | null;
}

/** Leads from a place in the compiled script back to the cell as it was written. */
export class CellMap {
  readonly #mappings: string;
  readonly #stripped: Stripped['map'];

  constructor(out: MagicString, stripped: Stripped) {
    this.#mappings = out.generateMap({ hires: 'boundary' }).mappings;
    this.#stripped = () => stripped.map();
  }

  mappings(): CellMappings {
    return { rewritten: this.#mappings, types: this.#stripped() };
  }

  locate(position: Position): Position | null {
    const rewritten: EncodedSourceMap = {
      version: 3,
      names: [],
      sources: ['cell.ts'],
      mappings: this.#mappings,
    };
    const middle = trace(rewritten, position);
    const types = this.#stripped() as EncodedSourceMap | null;
    return middle && types ? (trace(types, middle) ?? middle) : middle;
  }
}

function trace(map: EncodedSourceMap, { line, column }: Position): Position | null {
  const found = originalPositionFor(new TraceMap(map), { line, column: column - 1 });
  return found.line === null ? null : { line: found.line, column: found.column + 1 };
}
