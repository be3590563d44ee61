import { parse, parseExpressionAt, type Node, type Options, type TryStatement } from 'acorn';
import { childNodes, isFunction } from '../../cells/compile/tree.js';

const OPTIONS: Options = {
  ecmaVersion: 'latest',
  sourceType: 'module',
  allowAwaitOutsideFunction: true,
  allowReturnOutsideFunction: true,
  allowSuperOutsideMethod: true,
  checkPrivateFields: false,
  allowHashBang: true,
};

/** Where V8 says that a function begins, its parameters do; any can be read as one of these kinds. */
const HEADS = ['async function* ', 'async ', ''];

/**
 * Whether code at an offset stands in a `try` with a `catch` of its own function, which begins at
 * `start`. Only that function is read, as scripts of libraries are large.
 */
export function isInTry(js: string, start: number, offset: number): boolean {
  const text = js.slice(start);
  const within = offset - start;
  const attempts = [
    ...HEADS.map((head) => () => ({
      tree: parseExpressionAt(head + text, 0, OPTIONS),
      at: head.length + within,
    })),
    () => ({ tree: parse(js, OPTIONS), at: offset }),
  ];
  for (const attempt of attempts)
    try {
      const { tree, at } = attempt();
      if (holds(tree, at)) return catches(tree, at);
    } catch {
      // It is of another kind.
    }
  return false;
}

function catches(tree: Node, offset: number): boolean {
  let caught = false;
  for (let node: Node | undefined = tree; node; node = childAt(node, offset)) {
    if (isFunction(node) || node.type === 'StaticBlock') caught = false;
    const { handler, block } = node as TryStatement;
    if (node.type === 'TryStatement' && handler && holds(block, offset)) caught = true;
  }
  return caught;
}

const holds = (node: Node, offset: number): boolean => node.start <= offset && offset < node.end;

function childAt(node: Node, offset: number): Node | undefined {
  return childNodes(node).find((child) => holds(child, offset));
}

/** Offset in a text of a line and column that count from 0. */
export function offsetOf(text: string, line: number, column: number): number {
  let at = 0;
  for (let n = 0; n < line; n++) at = text.indexOf('\n', at) + 1;
  return at + column;
}
