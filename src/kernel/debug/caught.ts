import { parse, type Node, type TryStatement } from 'acorn';
import { childNodes, isFunction } from '../../cells/compile/tree.js';

/** Whether code at an offset of a script stands in a `try` with a `catch`, within its function. */
export function isInTry(tree: Node, offset: number): boolean {
  let caught = false;
  for (let node: Node | undefined = tree; node; node = childAt(node, offset)) {
    if (isFunction(node) || node.type === 'StaticBlock') caught = false;
    const { handler, block } = node as TryStatement;
    if (node.type === 'TryStatement' && handler && holds(block, offset)) caught = true;
  }
  return caught;
}

/** Syntax tree of a script or module as V8 has it; null where it cannot be read. */
export function readScript(js: string): Node | null {
  const options = {
    ecmaVersion: 'latest',
    allowAwaitOutsideFunction: true,
    allowReturnOutsideFunction: true,
    allowHashBang: true,
  } as const;
  for (const sourceType of ['module', 'script'] as const)
    try {
      return parse(js, { ...options, sourceType });
    } catch {
      // The other kind may do.
    }
  return null;
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
