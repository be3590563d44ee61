import type { Expression, ImportDeclaration, Node, Program } from 'acorn';

/** The library, whose names can be asked of itself. */
const LIBRARY = 'cocked-hat';
const ARITHMETIC = new Set(['+', '-', '*', '/', '%', '**']);

type Kind = 'number' | 'string' | 'list';

/**
 * What a cell without types in it imports from the library, if nothing else in it could be a type
 * error: it holds only such imports, and sums of numbers and texts. Null for any other cell.
 */
export function plainImports({ body }: Program): string[] | null {
  const names: string[] = [];
  for (const statement of body) {
    if (statement.type === 'ImportDeclaration') {
      const found = importedNames(statement);
      if (!found) return null;
      names.push(...found);
    } else if (statement.type !== 'ExpressionStatement' || !kindOf(statement.expression))
      return null;
  }
  return names.length === new Set(names).size ? names : null;
}

function importedNames({ source, specifiers }: ImportDeclaration): string[] | null {
  if (source.value !== LIBRARY) return null;
  const names = specifiers.map((s) =>
    s.type === 'ImportSpecifier' &&
    s.imported.type === 'Identifier' &&
    s.local.name === s.imported.name
      ? s.local.name
      : '',
  );
  return names.includes('') ? null : names;
}

/** The type that TypeScript sees in a sum of literals; null where it may complain. */
function kindOf(node: Expression | Node): Kind | null {
  const expression = node as Expression;
  switch (expression.type) {
    case 'ParenthesizedExpression':
      return kindOf(expression.expression);
    case 'Literal':
      return kindOfLiteral(expression.value, expression.raw ?? '');
    case 'TemplateLiteral':
      return expression.expressions.every((e) => kindOf(e)) ? 'string' : null;
    case 'ArrayExpression':
      return expression.elements.every((e) => e && kindOf(e)) ? 'list' : null;
    case 'UnaryExpression':
      return /^[-+]$/.test(expression.operator) && kindOf(expression.argument) === 'number'
        ? 'number'
        : null;
    case 'BinaryExpression':
      return kindOfSum(expression.operator, kindOf(expression.left), kindOf(expression.right));
    default:
      return null;
  }
}

function kindOfLiteral(value: unknown, raw: string): Kind | null {
  if (typeof value === 'number') return 'number';
  // Escapes by octal digits are complaints of grammar in a module.
  return typeof value === 'string' && !raw.includes('\\') ? 'string' : null;
}

function kindOfSum(operator: string, left: Kind | null, right: Kind | null): Kind | null {
  if (!ARITHMETIC.has(operator) || !left || !right) return null;
  if (left === 'number' && right === 'number') return 'number';
  const texts = [left, right].every((k) => k !== 'list') && operator === '+';
  return texts ? 'string' : null;
}
