import type * as acorn from 'acorn';
import MagicString from 'magic-string';
import { DeclarationRewriter } from './declarations.js';
import { declarationOf, nestedVars, topLevelNames, type NameKind } from './declared-names.js';
import { boundNames } from './patterns.js';
import { rewriteImport } from './imports.js';
import { findLoopLocals } from './loop-locals.js';
import type { NameLedger } from './name-ledger.js';
import { parseCell } from './parse.js';
import { plainImports } from './plain-imports.js';
import { rewriteReferences } from './references.js';
import { RUNTIME } from './runtime-name.js';
import { findUses } from './scopes.js';
import { CellMap } from './source-position.js';
import { stripTypes } from './strip-types.js';

export interface CompiledCell {
  /** Script whose value is a function that runs the cell and returns its last value. */
  readonly js: string;
  readonly names: ReadonlyMap<string, NameKind>;
  /** Names by the step that gives them a value; `__cell.step` counts the steps taken. */
  readonly steps: readonly (readonly string[])[];
  /** Names kept in local variables by a loop; an interrupt has to save them. */
  readonly loopLocals: readonly string[];
  /** What the cell imports from the library if it needs no type check otherwise; see `plainImports`. */
  readonly plainImports: readonly string[] | null;
  /** From a place in `js` to the place in the cell. */
  readonly map: CellMap;
}

/** Compiles the TypeScript of a cell, and notes its names in the ledger. */
export function compileCell(source: string, ledger: NameLedger): CompiledCell {
  const stripped = stripTypes(source);
  const program = parseCell(stripped.js);
  const names = topLevelNames(program);
  const uses = findUses(program);
  ledger.noteUses(uses.references);
  ledger.declare(names);

  const out = new MagicString(stripped.js);
  const ends = declarationEnds(program);
  const isEarly = (r: {
    node: acorn.Node & { name: string };
    closure: boolean;
    declares: boolean;
  }) => !r.closure && !r.declares && r.node.start < (ends.get(r.node.name) ?? 0);
  const locals = findLoopLocals(uses, names, ledger, isEarly);
  rewriteReferences(uses, out, ledger, names, isEarly);
  for (const expression of uses.awaited) {
    out.appendRight(expression.start, `${RUNTIME}.wait(`);
    out.appendLeft(expression.end, ')');
  }
  const steps = rewriteStatements(program, out, ledger);
  for (const { loop, written, read } of locals) {
    if (!written.length && !read.length) continue;
    const keep = (kind: string, list: readonly string[]) =>
      list.map((n) => `${kind} ${ledger.storage(n)} = ${RUNTIME}.global.${ledger.storage(n)};`);
    const save = written.map(
      (n) => `${RUNTIME}.global.${ledger.storage(n)} = ${ledger.storage(n)};`,
    );
    const start = [
      '{',
      ...keep('let', written),
      ...keep('const', read),
      written.length ? 'try {' : '',
    ];
    out.appendRight(loop.start, start.join(''));
    out.appendLeft(loop.end, written.length ? `} finally {${save.join('')}}}` : '}');
  }
  for (const keyword of uses.dynamicImports)
    out.update(keyword.start, keyword.start + 'import'.length, `${RUNTIME}.import`);
  for (const meta of uses.metas) out.update(meta.start, meta.end, `${RUNTIME}.meta`);

  const async = uses.waits || program.body.some((s) => s.type === 'ImportDeclaration');
  const vars = [...names].flatMap(([n, kind]) => (kind === 'var' ? [ledger.storage(n)] : []));
  const reset = vars.length ? `${vars.join(' = ')} = void 0;` : '';
  out.prepend(`(${async ? 'async ' : ''}function () {"use strict";${reset}`).append('\n})');
  return {
    js: out.toString(),
    names,
    steps,
    loopLocals: locals.flatMap((l) => l.written.map((n) => ledger.storage(n))),
    plainImports: stripped.js === source ? plainImports(program) : null,
    map: new CellMap(out, stripped),
  };
}

/** Where each let, const and class of the cell gets its value; before that it may not be used. */
function declarationEnds(program: acorn.Program): Map<string, number> {
  const ends = new Map<string, number>();
  for (const statement of program.body) {
    const node = declarationOf(statement);
    if (node.type === 'ClassDeclaration' && node.id) ends.set(node.id.name, node.start);
    if (node.type !== 'VariableDeclaration' || node.kind === 'var') continue;
    for (const d of node.declarations) for (const name of boundNames(d.id)) ends.set(name, d.end);
  }
  return ends;
}

/** Rewrites the statements of a cell; returns the names that each step gives a value. */
function rewriteStatements(program: acorn.Program, out: MagicString, ledger: NameLedger) {
  const top = program.body.find((s) => !isHoisted(s))?.start ?? out.original.length;
  const rewriter = new DeclarationRewriter(out, ledger, top);
  rewriteNestedVars(program, rewriter);
  const steps: string[][] = [];
  const step = (names: string[]): string => {
    steps.push(names);
    return `${RUNTIME}.step = ${steps.length};`;
  };
  for (const node of program.body) {
    if (node.type !== 'ImportDeclaration') continue;
    rewriteImport(node, out, ledger, step(node.specifiers.map((s) => s.local.name)));
    if (node.start > top) out.move(node.start, node.end, top);
  }
  const last = program.body.findLast((s) => s.type !== 'EmptyStatement');
  for (const statement of program.body) {
    const node = declarationOf(statement);
    if (node !== statement) out.remove(statement.start, node.start);
    if (node.type === 'VariableDeclaration') {
      rewriter.variables(node);
      rewriter.endStatement(node);
      out.appendLeft(node.end, step(node.declarations.flatMap((d) => boundNames(d.id))));
    } else if (node.type === 'ClassDeclaration' && node.id) {
      rewriter.class(node as acorn.ClassDeclaration);
      out.appendLeft(node.end, step([node.id.name]));
    } else if (node.type === 'FunctionDeclaration' && node.id)
      rewriter.function(node as acorn.FunctionDeclaration);
    else if (node.type === 'ExpressionStatement' && statement === last) returnValue(node, out);
    else if (node.type === 'ExportNamedDeclaration' || node.type === 'ExportAllDeclaration')
      out.remove(node.start, node.end);
  }
  return steps;
}

/** Imports and functions have their values before the first statement runs. */
function isHoisted(statement: acorn.Statement | acorn.ModuleDeclaration): boolean {
  const { type } = declarationOf(statement);
  return type === 'ImportDeclaration' || type === 'FunctionDeclaration';
}

function rewriteNestedVars(program: acorn.Program, rewriter: DeclarationRewriter): void {
  const direct = new Set<acorn.Node>(program.body.map(declarationOf));
  for (const { declaration, place } of nestedVars(program)) {
    if (direct.has(declaration)) continue;
    if (place === 'target') rewriter.loopTarget(declaration);
    else rewriter.variables(declaration);
    if (place === 'statement') rewriter.endStatement(declaration);
  }
}

function returnValue(node: acorn.ExpressionStatement, out: MagicString): void {
  out.appendRight(node.start, 'return (');
  if (out.original[node.end - 1] === ';') out.update(node.end - 1, node.end, ');');
  else out.appendLeft(node.end, ');');
}
