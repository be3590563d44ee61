import type { Node } from 'acorn';

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';

/** The nodes directly under a node, in source order of its fields. */
export function childNodes(node: Node): Node[] {
  const children: Node[] = [];
  for (const value of Object.values(node)) {
    if (isNode(value)) children.push(value);
    else if (Array.isArray(value)) children.push(...value.filter(isNode));
  }
  return children;
}

export function isFunction(node: Node): boolean {
  return (
    node.type === 'FunctionDeclaration' ||
    node.type === 'FunctionExpression' ||
    node.type === 'ArrowFunctionExpression'
  );
}

export function isLoop(node: Node): boolean {
  return /^(For|ForIn|ForOf|While|DoWhile)Statement$/.test(node.type);
}
