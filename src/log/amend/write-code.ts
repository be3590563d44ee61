import type { Amendment, Draft } from './amendment.js';

/** What the cell is about: the variable that holds the log, and the one that gets the amended log. */
export interface CodeNames {
  readonly log: string;
  readonly as: string;
}

const HEAD = '// Amendments to the sight log, one a line, as its editor wrote them.';
const IDENTIFIER = /^[A-Za-z_$][\w$]*$/;

/** A cell of code that makes these amendments, and holds in comments what could not be taken yet. */
export function amendmentCode(
  names: CodeNames,
  amendments: readonly Amendment[],
  drafts: readonly Draft[] = [],
): string {
  const lines = [
    ...amendments.map((a) => `  book.${a.kind}(${args(a)});`),
    ...drafts.map(
      (d) => `  // not taken: ${d.which === null ? 'new' : text(d.which)}, ${object(d.entries)}`,
    ),
  ];
  const head = `${HEAD}\nconst ${names.as} = ${names.log}.amend((book) => {`;
  return [head, ...lines, '});'].join('\n');
}

function args(a: Amendment): string {
  switch (a.kind) {
    case 'correct':
      return `${text(a.which)}, ${object(a.entries)}`;
    case 'add':
      return object(a.entries);
    case 'reject':
      return `${which(a.which)}, ${text(a.reason)}`;
    case 'accept':
      return which(a.which);
    case 'group':
      return `${which(a.which)}, ${object({ round: a.round, sight: a.sight })}`;
  }
}

const which = (labels: readonly string[]) =>
  labels.length === 1 ? text(labels[0] as string) : `[${labels.map(text).join(', ')}]`;

function object(fields: Readonly<Record<string, unknown>>): string {
  const inner = Object.entries(fields).map(([name, value]) => {
    const key = IDENTIFIER.test(name) ? name : text(name);
    return `${key}: ${typeof value === 'string' ? text(value) : object(value as never)}`;
  });
  return inner.length === 0 ? '{}' : `{ ${inner.join(', ')} }`;
}

/** A text in single quotes: nothing in it can end the quotes or the line. */
function text(value: string): string {
  const inner = value.replace(/[\\'\u0000-\u001f\u007f\u2028\u2029\ud800-\udfff]/gu, (c) =>
    c === '\\' || c === "'" ? `\\${c}` : `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
  return `'${inner}'`;
}
