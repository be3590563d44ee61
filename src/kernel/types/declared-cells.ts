import type ts from 'typescript';
import { declareNestedVars, keepDeclared, namesOf } from './declarations.js';

type TypeScript = typeof ts;

interface Statement {
  readonly names: readonly string[];
  readonly words: ReadonlySet<string>;
  readonly text: string;
}

/** What one cell is checked against: the statements it was given, as text. */
export interface Given {
  readonly text: string;
  readonly statements: ReadonlySet<Statement>;
  /** The names that the cell declares itself. */
  readonly declared: ReadonlySet<string>;
}

/**
 * The declarations that cells have left, by statement. A check is given only those that its cell
 * needs, so that the hundredth cell costs no more than the second.
 */
export class DeclaredCells {
  #statements: readonly Statement[] = [];

  constructor(private readonly TS: TypeScript) {}

  /** All declarations, for completion. */
  get all(): string {
    return this.#statements.map((s) => s.text).join('');
  }

  /** Statements of the names in a text (and in `also`), of what those are made of, and of what the text declares anew. */
  for(source: string, also = ''): Given {
    const declared = new Set(
      this.#parse(declareNestedVars(this.TS, source, source)).flatMap((s) => s.names),
    );
    const wanted = wordsOf(`${source}\n${also}`);
    const given = new Set<Statement>();
    for (let size = -1; size !== given.size;) {
      size = given.size;
      for (const statement of this.#statements) {
        if (given.has(statement)) continue;
        const { names, words } = statement;
        if (!names.some((n) => wanted.has(n)) && ![...declared].some((n) => words.has(n))) continue;
        given.add(statement);
        for (const word of words) wanted.add(word);
      }
    }
    const statements = this.#statements.filter((s) => given.has(s));
    return { text: statements.map((s) => s.text).join(''), statements: given, declared };
  }

  /** Puts what stands after a cell in the place of what it was given. */
  replace(given: Given, after: string, names: readonly string[] | 'all'): void {
    const text = names === 'all' ? after : keepDeclared(this.TS, after, given.text, new Set(names));
    const kept = this.#statements.filter((s) => !given.statements.has(s));
    const fresh = this.#parse(text);
    // The converter loses namespaces of types that a cell does not declare again.
    const there = new Set(fresh.flatMap((s) => s.names).concat(...given.declared));
    const lost = [...given.statements].filter((s) => !s.names.some((n) => there.has(n)));
    this.#statements = [...kept, ...lost, ...fresh];
  }

  #parse(text: string): Statement[] {
    const file = this.TS.createSourceFile('names.ts', text, this.TS.ScriptTarget.ES2022, true);
    return file.statements.flatMap((s) => {
      const names = namesOf(this.TS, s);
      const own = s.getFullText();
      return names.length ? [{ names, words: wordsOf(own), text: `${own}\n` }] : [];
    });
  }
}

function wordsOf(text: string): Set<string> {
  return new Set(text.match(/[\p{ID_Start}$_][\p{ID_Continue}$]*/gu) ?? []);
}
