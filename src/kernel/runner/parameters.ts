import { hasTag, type Cell, type Notebook } from './notebook.js';

const NAME = /^[\p{ID_Start}$_][\p{ID_Continue}$]*$/u;

/**
 * Puts a cell with other values of a notebook's parameters behind the cell tagged `parameters`,
 * or first if there is none.
 */
export function injectParameters(
  notebook: Notebook,
  parameters: Readonly<Record<string, unknown>>,
): void {
  const lines = Object.entries(parameters).map(([name, value]) => {
    if (!NAME.test(name))
      throw new Error(`a parameter is called “${name}”, which cannot be a variable's name`);
    const text = JSON.stringify(value);
    if (text === undefined)
      throw new Error(`the parameter ${name} has no value that can be written as JSON`);
    return `let ${name} = ${text};`;
  });
  if (lines.length === 0) return;
  const injected: Cell = {
    id: 'injected-parameters',
    cell_type: 'code',
    metadata: { tags: ['injected-parameters'] },
    source: lines.join('\n'),
    execution_count: null,
    outputs: [],
  };
  const kept = notebook.cells.filter((cell) => !hasTag(cell, 'injected-parameters'));
  const at = kept.findIndex((cell) => hasTag(cell, 'parameters'));
  notebook.cells = [...kept.slice(0, at + 1), injected, ...kept.slice(at + 1)];
}
