import type ts from 'typescript';

type TypeScript = typeof ts;

interface Block {
  readonly text: string;
  /** What it declares: a name, or a name and its member. */
  readonly keys: ReadonlySet<string>;
}

/** The `declare global { … }` blocks of cells: they hold for all cells after theirs. */
export class GlobalBlocks {
  #kept: readonly Block[] = [];

  constructor(private readonly TS: TypeScript) {}

  /** The blocks at the top of a cell, and the cell with spaces in their place. */
  taken(source: string): { readonly blocks: readonly Block[]; readonly rest: string } {
    if (!/\bglobal\s*\{/.test(source)) return { blocks: [], rest: source };
    const file = this.TS.createSourceFile('cell.ts', source, this.TS.ScriptTarget.ES2022, true);
    const found = file.statements.filter((s) => this.#isGlobal(s));
    let rest = source;
    for (const { pos, end } of found)
      rest = rest.slice(0, pos) + rest.slice(pos, end).replace(/[^\n]/g, ' ') + rest.slice(end);
    return { blocks: found.map((s) => this.#block(s)), rest };
  }

  /** What holds for a cell with these blocks of its own: the earlier ones that it does not declare anew. */
  before(own: readonly Block[]): string {
    return textOf(this.#others(own));
  }

  /** The cell has been run. */
  keep(own: readonly Block[]): void {
    this.#kept = [...this.#others(own), ...own];
  }

  #others(own: readonly Block[]): readonly Block[] {
    const anew = new Set(own.flatMap(({ keys }) => [...keys]));
    return this.#kept.filter(({ keys }) => ![...keys].some((key) => anew.has(key)));
  }

  #isGlobal(statement: ts.Statement): statement is ts.ModuleDeclaration {
    const { TS } = this;
    return (
      TS.isModuleDeclaration(statement) && (statement.flags & TS.NodeFlags.GlobalAugmentation) !== 0
    );
  }

  #block(statement: ts.ModuleDeclaration): Block {
    const { TS } = this;
    const { body } = statement;
    const inside = body && TS.isModuleBlock(body) ? [...body.statements] : [];
    const keys = inside.flatMap((s) => {
      if (TS.isVariableStatement(s))
        return s.declarationList.declarations.map((d) => d.name.getText());
      const name = (s as ts.Statement & { name?: ts.Node }).name?.getText() ?? '';
      return TS.isInterfaceDeclaration(s)
        ? s.members.map((m) => `${name}.${m.name?.getText() ?? m.getText()}`)
        : [name];
    });
    return { text: statement.getText(), keys: new Set(keys) };
  }
}

export const textOf = (blocks: readonly Block[]): string =>
  blocks.map(({ text }) => `${text}\n`).join('');

/** The converter exports all names of a cell, and takes `declare global` for one. */
export const isOfConverter = ({ messageText }: { readonly messageText: string }): boolean =>
  messageText.startsWith("Cannot find name '__global'");

export type { Block };
