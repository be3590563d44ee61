import type * as acorn from 'acorn';
import type MagicString from 'magic-string';
import type { NameLedger } from './name-ledger.js';

/** Turns top-level declarations into assignments to the session's names. */
export class DeclarationRewriter {
  constructor(
    private readonly out: MagicString,
    private readonly ledger: NameLedger,
    /** Where the first statement stands that is not hoisted. */
    private readonly top: number,
  ) {}

  /** `const a = 1, { b } = c` becomes `void (a = 1), ({ b } = c)`. */
  variables(node: acorn.VariableDeclaration): void {
    const first = node.declarations[0];
    if (!first) return;
    this.out.update(node.start, first.start, 'void ');
    for (const d of node.declarations) {
      this.out.appendRight(d.start, '(');
      const blank = node.kind === 'var' ? ')' : ' = void 0)';
      if (d.init && d.id.type === 'Identifier') this.keepName(d.id.name, d.init);
      this.out.appendLeft(d.end, d.init ? ')' : blank);
    }
  }

  /** The declaration in `for (var x of …)` becomes the bare target. */
  loopTarget(node: acorn.VariableDeclaration): void {
    const first = node.declarations[0];
    if (first) this.out.remove(node.start, first.start);
  }

  /** A class keeps its own inner name and is assigned to the session's. */
  class(node: acorn.ClassDeclaration): void {
    this.out.appendRight(node.start, `void (${this.ledger.storage(node.id.name)} = `);
    this.out.appendLeft(node.end, ');');
  }

  /** A function is assigned at the top of the cell, where JavaScript hoists it. */
  function(node: acorn.FunctionDeclaration): void {
    const { name, start, end } = node.id;
    const storage = this.ledger.storage(name);
    this.out.remove(start, end);
    const [before, after] = storage === name ? ['', ''] : [`{${name}:`, `}.${name}`];
    this.out.appendRight(node.start, `${storage} = ${before}`);
    this.out.appendLeft(node.end, `${after};`);
    if (node.start > this.top) this.out.move(node.start, node.end, this.top);
  }

  /** Ends a statement for which the author relied on the line break. */
  endStatement(node: acorn.Node): void {
    if (this.out.original[node.end - 1] !== ';') this.out.appendLeft(node.end, ';');
  }

  /** An unnamed function takes the name it is assigned to, also where that is stored under another. */
  private keepName(name: string, init: acorn.Expression): void {
    const unnamed =
      init.type === 'ArrowFunctionExpression' ||
      ((init.type === 'FunctionExpression' || init.type === 'ClassExpression') && !init.id);
    if (!unnamed || this.ledger.storage(name) === name) return;
    this.out.appendRight(init.start, `{${name}:`);
    this.out.appendLeft(init.end, `}.${name}`);
  }
}
