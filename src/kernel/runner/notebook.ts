/** A notebook file (nbformat 4). Texts may be one string or a list of lines. */
export interface Notebook {
  nbformat: number;
  nbformat_minor: number;
  metadata: Record<string, unknown>;
  cells: Cell[];
}

export type MultilineText = string | string[];

export interface Cell {
  /** Pictures put into a text cell: name to MIME type to base64. */
  attachments?: Record<string, Record<string, string>>;
  id?: string;
  cell_type: 'code' | 'markdown' | 'raw';
  source: MultilineText;
  metadata: { tags?: string[] } & Record<string, unknown>;
  execution_count?: number | null;
  outputs?: Output[];
}

type Data = Record<string, unknown>;

export type Output =
  | { output_type: 'stream'; name: 'stdout' | 'stderr'; text: MultilineText }
  | { output_type: 'display_data'; data: Data; metadata: Data }
  | { output_type: 'execute_result'; data: Data; metadata: Data; execution_count: number }
  | { output_type: 'error'; ename: string; evalue: string; traceback: string[] };

export function textOf(text: MultilineText): string {
  return Array.isArray(text) ? text.join('') : text;
}

/** Text as notebook files keep it: a list of lines with their ends. */
export function linesOf(text: string): string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

export function hasTag(cell: Cell, tag: string): boolean {
  return cell.metadata.tags?.includes(tag) ?? false;
}

/** Checks that a value is a notebook we can run; says what is wrong with it. */
export function asNotebook(value: unknown, name: string): Notebook {
  const notebook = value as Partial<Notebook> | null;
  if (typeof notebook !== 'object' || notebook === null || !Array.isArray(notebook.cells))
    throw new Error(`${name} is not a notebook: it has no list of cells`);
  if (notebook.nbformat !== 4)
    throw new Error(
      `${name} has notebook format ${String(notebook.nbformat)}; format 4 is needed (save it once with a current Jupyter)`,
    );
  return notebook as Notebook;
}

/** The name of another language that a notebook says it is written in; undefined for ours, or when it does not say. */
export function otherLanguage({ metadata }: Notebook): string | undefined {
  const of = (key: string, field: string): unknown =>
    (metadata?.[key] as Record<string, unknown> | undefined)?.[field];
  const language = of('kernelspec', 'language') ?? of('language_info', 'name');
  if (typeof language !== 'string' || /^(?:typescript|javascript)$/i.test(language))
    return undefined;
  const shown = of('kernelspec', 'display_name');
  return typeof shown === 'string' ? shown : language;
}
