import type ts from 'typescript';

type TypeScript = typeof ts;

/** Declarations with every top-level name of a cell typed `any`, for cells without better ones. */
export function declareAsAny(TS: TypeScript, source: string, before: string): string {
  const names = new Set(statementsOf(TS, source).flatMap((s) => namesOf(TS, s)));
  const kept = filterStatements(TS, before, (name) => !names.has(name));
  return kept + [...names].map((name) => `declare let ${name}: any;\n`).join('');
}

/** Declarations with the `var`s of a cell's blocks and loops, which the converter leaves out. */
export function declareNestedVars(TS: TypeScript, source: string, after: string): string {
  const known = new Set(statementsOf(TS, after).flatMap((s) => namesOf(TS, s)));
  const file = TS.createSourceFile('names.ts', source, TS.ScriptTarget.ES2022, true);
  const found = new Set<string>();
  const visit = (node: ts.Node): void => {
    if (TS.isFunctionLike(node) || TS.isClassLike(node)) return;
    if (TS.isVariableDeclarationList(node) && !(node.flags & TS.NodeFlags.BlockScoped))
      for (const { name } of node.declarations)
        for (const n of bindingNames(TS, name)) if (!known.has(n)) found.add(n);
    TS.forEachChild(node, visit);
  };
  if (/\bvar\b/.test(source)) visit(file);
  return after + [...found].map((name) => `declare let ${name}: any;\n`).join('');
}

/** The declarations after a cell of which only some names have got their value. */
export function keepDeclared(
  TS: TypeScript,
  after: string,
  before: string,
  set: ReadonlySet<string>,
): string {
  const old = new Set(statementsOf(TS, before).flatMap((s) => namesOf(TS, s)));
  const unset = (name: string): boolean => !set.has(name);
  const fresh = filterStatements(
    TS,
    after,
    (name) => set.has(name) || (old.has(name) && unset(name)),
  );
  return fresh;
}

function statementsOf(TS: TypeScript, text: string): readonly ts.Statement[] {
  return TS.createSourceFile('names.ts', text, TS.ScriptTarget.ES2022, true).statements;
}

/** The text without the statements none of whose names is wanted. */
function filterStatements(TS: TypeScript, text: string, wanted: (name: string) => boolean): string {
  return statementsOf(TS, text)
    .filter((s) => {
      const names = namesOf(TS, s);
      return names.length === 0 || names.some(wanted);
    })
    .map((s) => `${s.getFullText()}\n`)
    .join('');
}

/** Names that a statement declares at the top level, types among them. */
export function namesOf(TS: TypeScript, statement: ts.Statement): string[] {
  if (TS.isVariableStatement(statement))
    return statement.declarationList.declarations.flatMap((d) => bindingNames(TS, d.name));
  if (TS.isImportDeclaration(statement)) return importNames(TS, statement);
  const named = statement as ts.Statement & { name?: ts.Node };
  return named.name && TS.isIdentifier(named.name) ? [named.name.text] : [];
}

function bindingNames(TS: TypeScript, name: ts.BindingName): string[] {
  if (TS.isIdentifier(name)) return [name.text];
  return name.elements.flatMap((e) => (TS.isOmittedExpression(e) ? [] : bindingNames(TS, e.name)));
}

function importNames(TS: TypeScript, { importClause }: ts.ImportDeclaration): string[] {
  if (!importClause) return [];
  const bindings = importClause.namedBindings;
  const names = importClause.name ? [importClause.name.text] : [];
  if (!bindings) return names;
  if (TS.isNamespaceImport(bindings)) return [...names, bindings.name.text];
  return [...names, ...bindings.elements.map((e) => e.name.text)];
}
