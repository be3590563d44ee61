import { parse, type Expression, type Literal, type ObjectExpression, type Program } from 'acorn';
import { stripTypes } from '../../cells/compile/strip-types.js';

/**
 * The values of a cell that only writes figures down, `const answer = { dip: '−2.8′' }`, read without running it:
 * name to JSON text. `undefined` for a cell that computes anything at all.
 */
export function literalValues(source: string): Record<string, string> | undefined {
  let program: Program;
  try {
    program = parse(stripTypes(source).js, { ecmaVersion: 'latest', sourceType: 'module' });
  } catch {
    return undefined;
  }
  const values: Record<string, string> = {};
  for (const statement of program.body) {
    if (statement.type === 'EmptyStatement') continue;
    if (statement.type !== 'VariableDeclaration') return undefined;
    for (const { id, init } of statement.declarations) {
      const value = id.type === 'Identifier' && init ? literal(init) : undefined;
      if (id.type !== 'Identifier' || value === undefined) return undefined;
      values[id.name] = JSON.stringify(value.plain);
    }
  }
  return values;
}

/** Wrapped, since the value itself may be null. */
function literal(node: Expression): { readonly plain: unknown } | undefined {
  switch (node.type) {
    case 'Literal':
      return plainLiteral(node);
    case 'TemplateLiteral':
      return node.expressions.length === 0
        ? { plain: node.quasis[0]?.value.cooked ?? '' }
        : undefined;
    case 'UnaryExpression': {
      const inner = node.operator === '-' ? literal(node.argument) : undefined;
      return typeof inner?.plain === 'number' ? { plain: -inner.plain } : undefined;
    }
    case 'ObjectExpression':
      return object(node);
    default:
      return undefined;
  }
}

const plainLiteral = ({ value }: Literal) =>
  value === null || ['string', 'number', 'boolean'].includes(typeof value)
    ? { plain: value }
    : undefined;

function object(node: ObjectExpression): { readonly plain: unknown } | undefined {
  const entries: [string, unknown][] = [];
  for (const property of node.properties) {
    if (property.type !== 'Property' || property.computed || property.kind !== 'init')
      return undefined;
    const { key, value } = property;
    const name =
      key.type === 'Identifier' ? key.name : key.type === 'Literal' ? String(key.value) : '';
    const found = literal(value);
    if (name === '' || name === '__proto__' || !found) return undefined;
    entries.push([name, found.plain]);
  }
  return { plain: Object.fromEntries(entries) };
}
