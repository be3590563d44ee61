import type { CellError, CellEvent, Bundle } from '../../cells/index.js';
import { linesOf, textOf, type Cell, type Output } from './notebook.js';

/** Puts what cells send into the notebook, as Jupyter's own programs do. */
export class Outputs {
  /** Outputs by display id, so that an update finds all of them. */
  readonly #shown = new Map<string, Output[]>();
  /** Cells whose outputs go when the next one comes. */
  readonly #clearing = new Set<Cell>();

  add(cell: Cell, event: CellEvent): void {
    switch (event.type) {
      case 'stream':
        return this.#stream(cell, event.name, event.text);
      case 'display':
        return event.update ? this.#update(event.id, event) : this.#display(cell, event.id, event);
      case 'clear':
        if (event.wait) this.#clearing.add(cell);
        else cell.outputs = [];
        return;
      case 'error':
        return this.error(cell, event.error);
      case 'comm':
        return;
    }
  }

  result(cell: Cell, bundle: Bundle, count: number): void {
    const output_type = 'execute_result';
    const metadata = { ...bundle.metadata };
    this.#push(cell, { output_type, execution_count: count, data: fileData(bundle), metadata });
  }

  error(cell: Cell, { ename, evalue, traceback }: CellError): void {
    this.#push(cell, { output_type: 'error', ename, evalue, traceback: [...traceback] });
  }

  #display(cell: Cell, id: string | undefined, bundle: Bundle): void {
    const output: Output = {
      output_type: 'display_data',
      data: fileData(bundle),
      metadata: { ...bundle.metadata },
    };
    if (id) this.#shown.set(id, [...(this.#shown.get(id) ?? []), output]);
    this.#push(cell, output);
  }

  #update(id: string | undefined, bundle: Bundle): void {
    for (const output of this.#shown.get(id ?? '') ?? [])
      Object.assign(output, { data: fileData(bundle), metadata: { ...bundle.metadata } });
  }

  #stream(cell: Cell, name: 'stdout' | 'stderr', text: string): void {
    const last = this.#clearing.has(cell) ? undefined : cell.outputs?.at(-1);
    if (last?.output_type === 'stream' && last.name === name)
      last.text = linesOf(textOf(last.text) + text);
    else this.#push(cell, { output_type: 'stream', name, text: linesOf(text) });
  }

  #push(cell: Cell, output: Output): void {
    if (this.#clearing.delete(cell)) cell.outputs = [];
    (cell.outputs ??= []).push(output);
  }
}

/** Notebook files keep texts as lists of lines; JSON and bytes stay as they are. */
function fileData({ data }: Bundle): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(data).map(([type, value]) => [
      type,
      typeof value === 'string' && isText(type) ? linesOf(value) : value,
    ]),
  );
}

function isText(type: string): boolean {
  return type.startsWith('text/') || type === 'image/svg+xml' || type === 'application/javascript';
}
