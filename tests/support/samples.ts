/** The code samples of a document: fenced blocks of TypeScript with what they show, and of shell commands. */

/** A fenced block as it stands in the text. */
export interface Fence {
  readonly language: string;
  readonly text: string;
  /** Number of its first line of text in the document, from 1. */
  readonly line: number;
  /** How many lines of text it has; 0 when it is empty. */
  readonly length: number;
}

/** A sample to be run; `shown` is the block `text` that follows it, if one does. */
export interface Sample {
  readonly code: string;
  readonly line: number;
  readonly shown?: Fence;
}

/** A sample that is not run, and why. */
export interface NotRun {
  readonly line: number;
  readonly reason: string;
}

const OPENING = /^```(\w*)\s*$/;
const NOT_RUN = /^(?:\/\/|#) not run\b:?\s*(.*)$/;

/** All fenced blocks, in order. @throws Error when one is not closed */
export function fences(markdown: string): Fence[] {
  const lines = markdown.split(/\r?\n/);
  const found: Fence[] = [];
  for (let i = 0; i < lines.length; i++) {
    const language = OPENING.exec(lines[i] as string)?.[1];
    if (language === undefined) continue;
    const end = lines.indexOf('```', i + 1);
    if (end < 0) throw new Error(`the block that starts in line ${i + 1} is not closed`);
    found.push({
      language,
      text: lines.slice(i + 1, end).join('\n'),
      line: i + 2,
      length: end - i - 1,
    });
    i = end;
  }
  return found;
}

const linesBetween = (a: Fence, b: Fence) => b.line - (a.line + a.length) - 2;

/** The TypeScript of a document, as cells of one notebook. */
export function samples(markdown: string): { run: Sample[]; notRun: NotRun[] } {
  const all = fences(markdown);
  const run: Sample[] = [];
  const notRun: NotRun[] = [];
  all.forEach((fence, index) => {
    if (fence.language !== 'ts') return;
    const reason = NOT_RUN.exec(fence.text.split('\n', 1)[0] as string)?.[1];
    if (reason !== undefined) return void notRun.push({ line: fence.line, reason });
    const next = all[index + 1];
    // Only blank lines may stand between a sample and what it shows.
    const shown = next?.language === 'text' && linesBetween(fence, next) <= 1 ? next : undefined;
    run.push({ code: fence.text, line: fence.line, ...(shown ? { shown } : {}) });
  });
  return { run, notRun };
}

/** The commands of a document's shell blocks, one a line, comments taken off. */
export function shellLines(markdown: string): { text: string; line: number }[] {
  return fences(markdown)
    .filter(({ language }) => language === 'sh')
    .flatMap(({ text, line }) =>
      text.split('\n').map((command, i) => ({
        text: command.replace(/(^|\s)#.*$/, '').trim(),
        line: line + i,
      })),
    )
    .filter(({ text }) => text !== '');
}

/** Words of a command; quotation marks hold blanks together. */
export function words(command: string): string[] {
  return [...command.matchAll(/'([^']*)'|"([^"]*)"|(\S+)/g)].map((m) => m[1] ?? m[2] ?? m[3] ?? '');
}

/** The blocks marked `@example` in the docstrings of a source file, as TypeScript. */
export function examples(source: string): Sample[] {
  const found: Sample[] = [];
  for (const doc of source.matchAll(/\/\*\*[\s\S]*?\*\//g)) {
    if (!doc[0].includes('@example')) continue;
    const plain = doc[0].replace(/^[ \t]*\*( |$)/gm, '');
    const line = source.slice(0, doc.index).split('\n').length;
    for (const { code, shown } of samples(plain.slice(plain.indexOf('@example'))).run)
      found.push({ code, line, ...(shown ? { shown } : {}) });
  }
  return found;
}

/** Whether a shown text is what came out; a line `…` stands for any lines. */
export function isShown(expected: string, actual: string): boolean {
  const trimmed = (text: string) =>
    text
      .split('\n')
      .map((line) => line.trimEnd())
      .join('\n')
      .trim();
  const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  const parts = `\n${trimmed(expected)}\n`.split(/\n…(?=\n)/).map(escaped);
  return new RegExp(`^${parts.join('(?:\\n[^\\n]*)*')}$`).test(`\n${trimmed(actual)}\n`);
}
