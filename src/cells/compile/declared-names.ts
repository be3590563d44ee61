import type { Node, Program, Statement, ModuleDeclaration, VariableDeclaration } from 'acorn';
import { boundNames } from './patterns.js';
import { childNodes, isFunction } from './tree.js';

export type NameKind = 'const' | 'let' | 'var' | 'function' | 'class' | 'import';

/** Names that the direct statements of a block declare lexically (let, const, class, function). */
export function lexicalNames(body: readonly (Statement | ModuleDeclaration)[]) {
  const names = new Map<string, NameKind>();
  for (const statement of body) {
    const node = declarationOf(statement);
    if (node.type === 'VariableDeclaration' && node.kind !== 'var')
      for (const d of node.declarations)
        for (const name of boundNames(d.id)) names.set(name, node.kind === 'let' ? 'let' : 'const');
    else if (node.type === 'FunctionDeclaration' && node.id) names.set(node.id.name, 'function');
    else if (node.type === 'ClassDeclaration' && node.id) names.set(node.id.name, 'class');
    else if (node.type === 'ImportDeclaration')
      for (const s of node.specifiers) names.set(s.local.name, 'import');
  }
  return names;
}

export interface NestedVar {
  readonly declaration: VariableDeclaration;
  /** Where it stands: by itself, in the head of a `for (;;)`, or as the target of `for … of`. */
  readonly place: 'statement' | 'head' | 'target';
}

/** `var` declarations under a node, at any depth but not inside functions. */
export function nestedVars(root: Node): NestedVar[] {
  const found: NestedVar[] = [];
  const visit = (node: Node, parent: Node): void => {
    if (isFunction(node) || node.type === 'StaticBlock' || node.type === 'PropertyDefinition')
      return;
    if (node.type === 'VariableDeclaration' && (node as VariableDeclaration).kind === 'var') {
      const place =
        'left' in parent && parent.left === node
          ? 'target'
          : 'init' in parent && parent.init === node
            ? 'head'
            : 'statement';
      found.push({ declaration: node as VariableDeclaration, place });
    }
    for (const child of childNodes(node)) visit(child, node);
  };
  for (const child of childNodes(root)) visit(child, root);
  return found;
}

export function varNames(root: Node): string[] {
  return nestedVars(root).flatMap((v) =>
    v.declaration.declarations.flatMap((d) => boundNames(d.id)),
  );
}

/** All names a cell declares for the cells after it. */
export function topLevelNames(program: Program): Map<string, NameKind> {
  const names = new Map<string, NameKind>();
  for (const name of varNames(program)) names.set(name, 'var');
  for (const [name, kind] of lexicalNames(program.body)) names.set(name, kind);
  return names;
}

/** The declaration inside `export …`, or the statement itself. */
export function declarationOf(statement: Statement | ModuleDeclaration) {
  return statement.type === 'ExportNamedDeclaration' && statement.declaration
    ? statement.declaration
    : statement;
}
