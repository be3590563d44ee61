import type { Node } from 'acorn';
import { parseCell } from '../../cells/compile/parse.js';
import { stripTypes } from '../../cells/compile/strip-types.js';
import { childNodes } from '../../cells/compile/tree.js';
import { textOf, type Notebook } from '../../kernel/runner/notebook.js';
import { PublishError } from '../publish-error.js';

/** Modules that each form in a browser holds: `MODULES` in client/worker.ts and in lab/lite-kernel/worker.ts. */
export const BROWSER_MODULES = {
  page: ['cocked-hat'],
  site: ['cocked-hat', 'astronomy-engine', 'arquero'],
} as const;

/** What the code cells of a notebook import by a name written out, each with the number of its cell. */
export function importsOf({ cells }: Notebook): { cell: number; specifier: string }[] {
  return cells
    .filter((cell) => cell.cell_type === 'code')
    .flatMap((cell, i) =>
      specifiersOf(textOf(cell.source)).map((specifier) => ({ cell: i + 1, specifier })),
    );
}

/** @throws PublishError when a cell imports a module that the form cannot hold */
export function refuseImports(notebook: Notebook, form: keyof typeof BROWSER_MODULES): void {
  const held: readonly string[] = BROWSER_MODULES[form];
  const other = importsOf(notebook).find(({ specifier }) => !held.includes(specifier));
  if (other)
    throw new PublishError(
      `Code cell ${other.cell} imports '${other.specifier}', which a ${form === 'page' ? 'one-file page' : 'site'} does not hold`,
      `import from ${held.map((name) => `'${name}'`).join(', ')} only, or leave out the form ${form}: --form ${form === 'page' ? 'notebook' : 'page'}`,
    );
}

function specifiersOf(source: string): string[] {
  const found: string[] = [];
  const visit = (node: Node): void => {
    const { type, source: from } = node as Node & { source?: { type: string; value?: unknown } };
    if (/^(?:Import(?:Declaration|Expression)|Export\w+Declaration)$/.test(type))
      if (from?.type === 'Literal' && typeof from.value === 'string') found.push(from.value);
    childNodes(node).forEach(visit);
  };
  try {
    visit(parseCell(stripTypes(source).js));
  } catch {
    // A cell that cannot be read fails when it is run, and says so there.
  }
  return found;
}
