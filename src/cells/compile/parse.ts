import { parse, type Program } from 'acorn';
import { CellSyntaxError } from '../errors/cell-syntax-error.js';

const DECORATOR =
  'a decorator does not run in a cell: call it as a function, const Watch = logged(class Watch { … }), ' +
  'and for a method, Watch.prototype.read = logged(Watch.prototype.read)';

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
    const { message, loc, pos } = error as Error & {
      loc?: { line: number; column: number };
      pos?: number;
    };
    throw new CellSyntaxError(
      js[pos ?? -1] === '@' ? DECORATOR : message.replace(/ \(\d+:\d+\)$/, ''),
      loc?.line ?? 1,
      (loc?.column ?? 0) + 1,
    );
  }
}
