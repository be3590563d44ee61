import { tokenizer } from 'acorn';
import { stripTypes } from '../../cells/compile/strip-types.js';
import { textOf, type Notebook } from '../../kernel/runner/notebook.js';

/** Every name that stands in the code of a notebook's cells; words in its texts and remarks name nothing. */
export function namesUsed({ cells }: Notebook): ReadonlySet<string> {
  return new Set(
    cells
      .filter((cell) => cell.cell_type === 'code')
      .flatMap((cell) => namesIn(textOf(cell.source))),
  );
}

function namesIn(source: string): string[] {
  try {
    const { js } = stripTypes(source);
    const tokens = [...tokenizer(js, { ecmaVersion: 'latest', sourceType: 'module' })];
    // A text that is a name and nothing else may stand for one: lib['dip'].
    return tokens
      .filter(({ type }) => type.label === 'name' || type.label === 'string')
      .map(({ start, end }) => js.slice(start, end).replace(/^['"]|['"]$/g, ''));
  } catch {
    // A cell that cannot be read may name anything that stands in it.
    return source.match(/[A-Za-z_$][\w$]*/g) ?? [];
  }
}
