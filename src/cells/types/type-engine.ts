/** A complaint about a cell; `start` and `length` in UTF-16 units, line and column from 1. */
export interface Diagnostic {
  readonly code: number;
  readonly message: string;
  readonly line: number;
  readonly column: number;
  readonly length: number;
  /** Set when the complaint is about another file than the cell. */
  readonly file?: string;
}

export interface Completion {
  readonly name: string;
  /** Kind as TypeScript calls it: function, method, property, const, … */
  readonly kind: string;
  readonly signature?: string;
}

export interface Completions {
  /** The span to be replaced, in UTF-16 units. */
  readonly start: number;
  readonly end: number;
  readonly items: readonly Completion[];
}

export interface Inspection {
  readonly signature: string;
  /** Markdown of the documentation comment. */
  readonly documentation: string;
  /** Tags of the documentation comment: `@param`, `@returns`, `@see` … */
  readonly tags: readonly { readonly name: string; readonly text: string }[];
}

/**
 * Judges the types of cells. `check` sees the names of the cells committed before; `commit` makes
 * the names of a checked cell visible to later ones.
 */
export interface TypeEngine {
  check(id: string, source: string): Promise<readonly Diagnostic[]>;
  /** `names`: those that have a value; a cell that failed half-way has set only some. */
  commit(id: string, names: readonly string[] | 'all'): Promise<void>;
  complete(source: string, offset: number): Promise<Completions>;
  inspect(source: string, offset: number): Promise<Inspection | null>;
}

interface DisplayParts {
  readonly displayParts?: readonly { readonly text: string }[] | undefined;
  readonly documentation?: readonly { readonly text: string }[] | undefined;
  readonly tags?:
    | readonly { readonly name: string; readonly text?: readonly { readonly text: string }[] }[]
    | undefined;
}

/** What TypeScript tells of a name, whichever version tells it. */
export function inspectionOf({ displayParts, documentation, tags = [] }: DisplayParts): Inspection {
  const text = (parts: readonly { text: string }[] = []) => parts.map((p) => p.text).join('');
  return {
    signature: text(displayParts),
    documentation: text(documentation),
    tags: tags.map((tag) => ({ name: tag.name, text: text(tag.text) })),
  };
}
