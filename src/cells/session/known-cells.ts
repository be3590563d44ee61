import type { CellMap, CellMappings } from '../compile/source-position.js';
import type { CellSources } from '../errors/describe-error.js';
import { parseStack, type StackFrame } from '../errors/stack-frames.js';
import type { Run } from './host.js';

/** How many cells are remembered for the errors of functions they have left behind. */
const REMEMBERED = 1000;

interface KnownCell {
  readonly run: Run;
  readonly source: string;
  readonly map: CellMap | null;
}

/** A cell as it was written, with the maps that lead from its script to it. */
export interface MappedCell extends CellMappings {
  readonly source: string;
}

/** The cells that have run, by the file name they have in stack traces. */
export class KnownCells implements CellSources {
  readonly #cells = new Map<string, KnownCell>();

  constructor(private readonly isInternalFile: (file: string) => boolean = () => false) {}

  fileOf(run: Run): string {
    return `${run.label}.ts`;
  }

  add(run: Run, source: string, map: CellMap | null): void {
    const file = this.fileOf(run);
    this.#cells.delete(file);
    this.#cells.set(file, { run, source, map });
    const [oldest] = this.#cells.keys();
    if (this.#cells.size > REMEMBERED && oldest) this.#cells.delete(oldest);
  }

  locate(frame: StackFrame) {
    const cell = this.#cells.get(frame.file);
    if (!cell) return null;
    const at = cell.map?.locate(frame) ?? frame;
    return { label: cell.run.label, source: cell.source, at };
  }

  /** What a debugger needs to know of the cell with this file name. */
  mapped(file: string): MappedCell | null {
    const cell = this.#cells.get(file);
    return cell?.map ? { source: cell.source, ...cell.map.mappings() } : null;
  }

  /** File names of the cells with this text. */
  filesOf(source: string): string[] {
    return [...this.#cells].filter(([, cell]) => cell.source === source).map(([file]) => file);
  }

  isInternal({ file }: StackFrame): boolean {
    return file.startsWith('node:') || this.isInternalFile(file);
  }

  /** The cell that an error comes from: the outermost frame of its stack that is in a cell. */
  runOf(thrown: unknown): Run | undefined {
    const { stack } = (thrown ?? {}) as { stack?: unknown };
    return typeof stack === 'string' ? this.runOfStack(stack) : undefined;
  }

  runOfId(id: string): Run | undefined {
    return [...this.#cells.values()].findLast(({ run }) => run.id === id)?.run;
  }

  runOfStack(stack: string): Run | undefined {
    return parseStack(stack)
      .map((frame) => this.#cells.get(frame.file)?.run)
      .findLast((run) => run !== undefined);
  }
}
