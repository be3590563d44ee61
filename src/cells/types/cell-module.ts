import type ts from 'typescript';

type TypeScript = typeof ts;

/** How a name of one cell reaches the next: as a variable, a constant, anything else, or a type. */
export type ExportKind = 'let' | 'const' | 'value' | 'type';

/** The cell that a name comes from now. */
export interface Origin {
  readonly module: string;
  readonly kind: ExportKind;
}

/** A cell as a TypeScript module: the cell itself, with what it takes and gives behind it. */
export interface CellModule {
  readonly text: string;
  readonly exports: ReadonlyMap<string, ExportKind>;
}

/** Names that a cell uses from earlier cells are declared behind its text, so that its places stay. */
export function cellModule(
  TS: TypeScript,
  source: string,
  origins: ReadonlyMap<string, Origin>,
): CellModule {
  const file = TS.createSourceFile('cell.ts', source, TS.ScriptTarget.ES2022, true);
  const exports = exportsOf(TS, file);
  const words = new Set(source.match(/[\p{ID_Start}$_][\p{ID_Continue}$]*/gu) ?? []);
  const taken = [...origins]
    .filter(([name]) => words.has(name) && !exports.has(name))
    .map(([name, origin]) => takeName(name, origin));
  const own = exportedInPlace(TS, file);
  const given = [...exports]
    .filter(([name]) => !own.has(name))
    .map(([name, kind]) => (kind === 'type' ? `type ${name}` : name));
  return { text: `${source}\n${taken.join('')}export { ${given.join(', ')} };\n`, exports };
}

function takeName(name: string, { module, kind }: Origin): string {
  if (kind === 'let' || kind === 'const')
    return `declare ${kind} ${name}: (typeof import('${module}'))['${name}'];\n`;
  return `import ${kind === 'type' ? 'type ' : ''}{ ${name} } from '${module}';\n`;
}

function exportsOf(TS: TypeScript, file: ts.SourceFile): Map<string, ExportKind> {
  const found = new Map<string, ExportKind>();
  const add = (name: string, kind: ExportKind): void => {
    if (kind !== 'type' || !found.has(name)) found.set(name, kind);
  };
  for (const statement of file.statements) {
    if (TS.isInterfaceDeclaration(statement) || TS.isTypeAliasDeclaration(statement))
      add(statement.name.text, 'type');
    else if (TS.isImportDeclaration(statement)) addImport(TS, statement, add);
    else if (!TS.isVariableStatement(statement)) {
      const { name } = statement as ts.Statement & { name?: ts.Node };
      if (name && TS.isIdentifier(name)) add(name.text, 'value');
    }
  }
  const variables = (list: ts.VariableDeclarationList): void => {
    const kind = list.flags & TS.NodeFlags.Const ? 'const' : 'let';
    for (const { name } of list.declarations) for (const n of bound(TS, name)) add(n, kind);
  };
  // Only `var` leaves the block it stands in.
  const visit = (node: ts.Node): void => {
    if (TS.isFunctionLike(node) || TS.isClassLike(node)) return;
    const isTop = node.parent?.parent === file && TS.isVariableStatement(node.parent);
    if (TS.isVariableDeclarationList(node) && (isTop || !(node.flags & TS.NodeFlags.BlockScoped)))
      variables(node);
    TS.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

function addImport(
  TS: TypeScript,
  { importClause: clause }: ts.ImportDeclaration,
  add: (name: string, kind: ExportKind) => void,
): void {
  if (!clause) return;
  const kindOf = (isType: boolean): ExportKind => (clause.isTypeOnly || isType ? 'type' : 'value');
  if (clause.name) add(clause.name.text, kindOf(false));
  const bindings = clause.namedBindings;
  if (!bindings) return;
  if (TS.isNamespaceImport(bindings)) add(bindings.name.text, kindOf(false));
  else for (const e of bindings.elements) add(e.name.text, kindOf(e.isTypeOnly));
}

function bound(TS: TypeScript, name: ts.BindingName): string[] {
  if (TS.isIdentifier(name)) return [name.text];
  return name.elements.flatMap((e) => (TS.isOmittedExpression(e) ? [] : bound(TS, e.name)));
}

/** Names that the cell exports itself, by `export` before a declaration. */
function exportedInPlace(TS: TypeScript, file: ts.SourceFile): Set<string> {
  const names = new Set<string>();
  for (const statement of file.statements) {
    const marks = TS.canHaveModifiers(statement) ? TS.getModifiers(statement) : undefined;
    if (!marks?.some((m) => m.kind === TS.SyntaxKind.ExportKeyword)) continue;
    if (TS.isVariableStatement(statement))
      for (const d of statement.declarationList.declarations)
        for (const name of bound(TS, d.name)) names.add(name);
    const { name } = statement as ts.Statement & { name?: ts.Node };
    if (name && TS.isIdentifier(name)) names.add(name.text);
  }
  return names;
}
