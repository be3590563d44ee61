import { cellNames } from '../../cells/index.js';
import { hasTag, textOf, type Cell, type Notebook } from './notebook.js';

const NAME = /^[\p{ID_Start}$_][\p{ID_Continue}$]*$/u;

/** A value was given for a name that the notebook does not have as a parameter. */
export class UnknownParameter extends Error {
  override readonly name = 'UnknownParameter';
}

/**
 * Puts a cell with other values of a notebook's parameters behind the cell tagged `parameters`,
 * or first if there is none. A cell that an earlier run put there is replaced.
 * @throws UnknownParameter for a name that the cell tagged `parameters` does not declare
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
  const defaults = kept[at];
  if (defaults) refuseUnknown(Object.keys(parameters), cellNames(textOf(defaults.source)));
  notebook.cells = [...kept.slice(0, at + 1), injected, ...kept.slice(at + 1)];
}

/** A cell that declares nothing, or cannot be read, does not say which names there are. */
function refuseUnknown(given: readonly string[], known: readonly string[]): void {
  const unknown = given.find((name) => !known.includes(name));
  if (unknown === undefined || known.length === 0) return;
  throw new UnknownParameter(
    `the notebook has no parameter ${unknown}; its cell tagged "parameters" sets ${known.join(', ')}`,
  );
}
