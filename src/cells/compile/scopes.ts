import type * as acorn from 'acorn';
import { lexicalNames, varNames } from './declared-names.js';
import { boundNames } from './patterns.js';
import { childNodes, isLoop } from './tree.js';

/** A use of a name that no scope inside the cell binds: one of the cell's own top names or an earlier cell's. */
export interface Reference {
  readonly node: acorn.Identifier;
  /** True where the name is assigned to. */
  readonly write: boolean;
  /** True where the name is declared, which is its first assignment. */
  readonly declares: boolean;
  /** True inside a function or a class body, which may run after the cell. */
  readonly closure: boolean;
  /** The outermost loop (or labelled statement) around the use, if the use is not in a closure. */
  readonly loop: acorn.Node | null;
  /** True for `{ name }`, which has to become `{ name: … }` when rewritten. */
  readonly shorthand: boolean;
}

export interface Uses {
  readonly references: readonly Reference[];
  /** `import(…)` expressions and `import.meta`. */
  readonly dynamicImports: readonly acorn.ImportExpression[];
  readonly metas: readonly acorn.MetaProperty[];
  /** What the cell awaits outside any function. */
  readonly awaited: readonly acorn.Expression[];
  /** True when the cell waits outside any function, by `await` or `for await`. */
  readonly waits: boolean;
  /** Loops that await, so that other code may run in the middle of them. */
  readonly awaitingLoops: ReadonlySet<acorn.Node>;
}

interface Scope {
  readonly names: ReadonlySet<string>;
  readonly parent: Scope | null;
}

interface Place {
  readonly scope: Scope | null;
  readonly closure: boolean;
  readonly loop: acorn.Node | null;
}

type AnyFunction = Extract<acorn.AnyNode, { type: `${string}Function${string}` }>;
type AnyClass = Extract<acorn.AnyNode, { type: 'ClassDeclaration' | 'ClassExpression' }>;

/** Finds where a cell uses names from outside its inner scopes. */
export function findUses(program: acorn.Program): Uses {
  const references: Reference[] = [];
  const dynamicImports: acorn.ImportExpression[] = [];
  const metas: acorn.MetaProperty[] = [];
  const awaitingLoops = new Set<acorn.Node>();
  const awaited: acorn.Expression[] = [];
  let waits = false;

  const use = (node: acorn.Identifier, at: Place, how: Partial<Reference> = {}): void => {
    for (let scope = at.scope; scope; scope = scope.parent) if (scope.names.has(node.name)) return;
    const { closure, loop } = at;
    references.push({
      node,
      write: false,
      declares: false,
      shorthand: false,
      closure,
      loop,
      ...how,
    });
  };
  const inside = (at: Place, names: Iterable<string>): Place => ({
    ...at,
    scope: { names: new Set(names), parent: at.scope },
  });
  const all = (nodes: readonly (acorn.Node | null | undefined)[], at: Place): void => {
    for (const node of nodes) if (node) visit(node, at);
  };
  const sawAwait = (at: Place): void => {
    if (at.closure) return;
    waits = true;
    if (at.loop) awaitingLoops.add(at.loop);
  };

  /** An assignment target, or the binding side of a declaration whose names are top-level. */
  const target = (node: acorn.Node, at: Place, declares = false, shorthand = false): void => {
    const n = node as acorn.AnyNode;
    if (n.type === 'Identifier') use(n, at, { write: true, declares, shorthand });
    else if (n.type === 'ObjectPattern')
      for (const p of n.properties) {
        if (p.type === 'RestElement') target(p.argument, at, declares);
        else {
          if (p.computed) visit(p.key, at);
          target(p.value, at, declares, p.shorthand);
        }
      }
    else if (n.type === 'ArrayPattern') n.elements.forEach((e) => e && target(e, at, declares));
    else if (n.type === 'AssignmentPattern') {
      target(n.left, at, declares, shorthand);
      visit(n.right, at);
    } else if (n.type === 'RestElement') target(n.argument, at, declares);
    else if (n.type === 'ParenthesizedExpression') target(n.expression, at);
    else visit(node, at);
  };

  const functionBody = (n: AnyFunction, at: Place): void => {
    const names = n.params.flatMap(boundNames);
    if (n.type !== 'ArrowFunctionExpression') names.push('arguments');
    if (n.type === 'FunctionExpression' && n.id) names.push(n.id.name);
    if (n.body.type === 'BlockStatement')
      names.push(...varNames(n.body), ...lexicalNames(n.body.body).keys());
    const inner = { ...inside(at, names), closure: true, loop: null };
    n.params.forEach((p) => target(p, inner));
    if (n.body.type === 'BlockStatement') all(n.body.body, inner);
    else visit(n.body, inner);
  };

  const classBody = (n: AnyClass, at: Place): void => {
    const named = n.id ? inside(at, [n.id.name]) : at;
    if (n.superClass) visit(n.superClass, named);
    const inner = { ...named, closure: true, loop: null };
    for (const member of n.body.body) {
      if (member.type === 'StaticBlock') {
        const names = [...varNames(member), ...lexicalNames(member.body).keys()];
        all(member.body, inside(inner, names));
        continue;
      }
      if (member.computed) visit(member.key, named);
      if (member.value) visit(member.value, inner);
    }
  };

  const loopStatement = (n: acorn.AnyNode, at: Place): void => {
    const outer = at.closure ? null : (at.loop ?? n);
    const head = n.type === 'ForStatement' ? n.init : 'left' in n ? n.left : null;
    const own =
      head?.type === 'VariableDeclaration' && head.kind !== 'var'
        ? inside(
            at,
            head.declarations.flatMap((d) => boundNames(d.id)),
          )
        : at;
    const inner = { ...own, loop: outer };
    if (n.type === 'ForOfStatement' && n.await) sawAwait(inner);
    if (head && head.type !== 'VariableDeclaration' && n.type !== 'ForStatement')
      target(head, inner);
    else if (head) visit(head, inner);
    for (const child of childNodes(n)) if (child !== head) visit(child, inner);
  };

  const visit = (node: acorn.Node, at: Place): void => {
    const n = node as acorn.AnyNode;
    switch (n.type) {
      case 'Identifier':
        return use(n, at);
      case 'FunctionDeclaration':
      case 'FunctionExpression':
      case 'ArrowFunctionExpression':
        return functionBody(n, at);
      case 'ClassDeclaration':
      case 'ClassExpression':
        return classBody(n, at);
      case 'BlockStatement':
        return all(n.body, inside(at, lexicalNames(n.body).keys()));
      case 'SwitchStatement': {
        visit(n.discriminant, at);
        const body = n.cases.flatMap((c) => c.consequent);
        return all(n.cases, inside(at, lexicalNames(body).keys()));
      }
      case 'CatchClause':
        if (!n.param) return visit(n.body, at);
        target(n.param, inside(at, boundNames(n.param)));
        return visit(n.body, inside(at, boundNames(n.param)));
      case 'VariableDeclaration':
        for (const d of n.declarations) {
          target(d.id, at, true);
          if (d.init) visit(d.init, at);
        }
        return;
      case 'AssignmentExpression':
        target(n.left, at);
        return visit(n.right, at);
      case 'UpdateExpression':
        return target(n.argument, at);
      case 'MemberExpression':
        visit(n.object, at);
        if (n.computed) visit(n.property, at);
        return;
      case 'Property':
        if (n.computed) visit(n.key, at);
        if (n.shorthand && n.value.type === 'Identifier')
          return use(n.value, at, { shorthand: true });
        return visit(n.value, at);
      case 'LabeledStatement':
        return visit(n.body, { ...at, loop: at.closure ? null : (at.loop ?? n) });
      case 'BreakStatement':
      case 'ContinueStatement':
      case 'ImportDeclaration':
      case 'ExportAllDeclaration':
        return;
      case 'ExportNamedDeclaration':
        if (n.declaration) visit(n.declaration, at);
        return;
      case 'AwaitExpression':
        sawAwait(at);
        if (!at.closure) awaited.push(n.argument);
        return visit(n.argument, at);
      case 'ImportExpression':
        dynamicImports.push(n);
        return all(childNodes(n), at);
      case 'MetaProperty':
        if (n.meta.name === 'import') metas.push(n);
        return;
      default:
        if (isLoop(n)) return loopStatement(n, at);
        return all(childNodes(n), at);
    }
  };

  all(program.body, { scope: null, closure: false, loop: null });
  return { references, dynamicImports, metas, awaited, waits, awaitingLoops };
}
