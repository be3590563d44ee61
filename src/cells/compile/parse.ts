import { parse, type Program } from 'acorn';
import { CellSyntaxError } from '../errors/cell-syntax-error.js';

/** Syntax tree of a cell's JavaScript: a module body, so `import` and `await` stand at its top. */
export function parseCell(js: string): Program {
  try {
    return parse(js, {
      ecmaVersion: 'latest',
      sourceType: 'module',
      allowAwaitOutsideFunction: true,
      allowHashBang: true,
      preserveParens: true,
    });
  } catch (error) {
    const { message, loc } = error as Error & { loc?: { line: number; column: number } };
    throw new CellSyntaxError(
      message.replace(/ \(\d+:\d+\)$/, ''),
      loc?.line ?? 1,
      (loc?.column ?? 0) + 1,
    );
  }
}
