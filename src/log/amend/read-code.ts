import type { Amendment, Corrected, Draft } from './amendment.js';
import type { CodeNames } from './write-code.js';

/** What a cell of amendments holds. */
export interface ReadCode {
  readonly amendments: readonly Amendment[];
  readonly drafts: readonly Draft[];
}

type Literal = string | Literal[] | { [key: string]: Literal };

const START = /^const ([A-Za-z_$][\w$]*) = ([A-Za-z_$][\w$]*)\.amend\(\(book\) => \{$/;
const LINE = /^book\.(correct|add|reject|accept|group)\((.*)\);$/;
const DRAFT = /^\/\/ not taken: (.*)$/;

/** The variables of a cell of amendments; null for any other code. */
export function amendmentNames(code: string): CodeNames | null {
  for (const line of code.split('\n')) {
    const m = START.exec(line.trim());
    if (m?.[1] && m[2]) return { as: m[1], log: m[2] };
  }
  return null;
}

/** The variable whose log a cell of code shows under this name: `mine` of `editLog({ log: mine })`; the name itself as a rule. */
export function shownVariable(code: string, name: string): string {
  const m = new RegExp(`\\beditLog\\(\\s*\\{\\s*${name}\\s*:\\s*([A-Za-z_$][\\w$]*)\\s*[,}]`).exec(
    code,
  );
  return m?.[1] ?? name;
}

/**
 * Reads a cell as `amendmentCode` writes it; comments and empty lines may stand between.
 * @returns null when it holds anything else, as after a change by hand: it is then for the kernel alone
 */
export function readAmendments(code: string): ReadCode | null {
  const lines = code.split('\n').map((line) => line.trim());
  const start = lines.findIndex((line) => START.test(line));
  const end = lines.indexOf('});', start);
  if (start < 0 || end < 0) return null;
  const other = [...lines.slice(0, start), ...lines.slice(end + 1)];
  if (!other.every((line) => line === '' || line.startsWith('//'))) return null;
  const amendments: Amendment[] = [];
  const drafts: Draft[] = [];
  for (const line of lines.slice(start + 1, end)) {
    const call = LINE.exec(line);
    const draft = DRAFT.exec(line);
    if (call) {
      const made = amendment(call[1] as string, literals(call[2] as string));
      if (!made) return null;
      amendments.push(made);
    } else if (draft) {
      const [which, entries] = literals((draft[1] as string).replace(/^new,/, "'',")) ?? [];
      if (typeof which !== 'string' || !isTexts(entries)) return null;
      drafts.push({ which: which || null, entries });
    } else if (line !== '' && !line.startsWith('//')) return null;
  }
  return { amendments, drafts };
}

function amendment(kind: string, args: Literal[] | null): Amendment | null {
  const [first, second, third] = args ?? [];
  if (!args || third !== undefined) return null;
  const which = typeof first === 'string' ? [first] : isList(first) ? first : null;
  if (kind === 'add') return isTexts(first) && !second ? { kind, entries: first } : null;
  if (!which) return null;
  if (kind === 'correct' && isCorrections(second) && which.length === 1)
    return { kind, which: which[0] as string, entries: second };
  if (kind === 'reject' && typeof second === 'string') return { kind, which, reason: second };
  if (kind === 'accept' && second === undefined) return { kind, which };
  if (kind !== 'group' || !isTexts(second)) return null;
  const { round, sight } = second;
  return round !== undefined && sight !== undefined ? { kind, which, round, sight } : null;
}

const isList = (value: Literal | undefined): value is string[] =>
  Array.isArray(value) && value.every((v) => typeof v === 'string');
const isObject = (value: Literal | undefined): value is Record<string, Literal> =>
  typeof value === 'object' && !Array.isArray(value);
const isTexts = (value: Literal | undefined): value is Record<string, string> =>
  isObject(value) && Object.values(value).every((v) => typeof v === 'string');
const isCorrections = (value: Literal | undefined): value is Record<string, Corrected & Literal> =>
  isObject(value) &&
  Object.values(value).every((v) => isTexts(v) && Object.keys(v).sort().join() === 'is,was');

const TOKEN = /\s*(?:'((?:[^'\\]|\\.)*)'|([A-Za-z_$][\w$]*)|([{}[\]:,]))/y;

/** The arguments of a call, all of them texts, lists and objects of texts; null for anything else. */
function literals(source: string): Literal[] | null {
  const tokens: { text?: string; mark: string }[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < source.trimEnd().length) {
    const m = TOKEN.exec(source);
    if (!m) return null;
    if (m[1] !== undefined) tokens.push({ text: unescaped(m[1]), mark: "'" });
    else tokens.push(m[2] !== undefined ? { text: m[2], mark: 'name' } : { mark: m[3] as string });
  }
  let at = 0;
  const fail = (): never => {
    throw new SyntaxError('not a literal');
  };
  const value = (): Literal => {
    const token = tokens[at++];
    if (token?.mark === "'") return token.text as string;
    if (token?.mark === '[') return listUntil(']', value);
    if (token?.mark !== '{') return fail();
    const fields = listUntil('}', (): [string, Literal] => {
      const key = tokens[at++];
      if (key?.text === undefined || tokens[at++]?.mark !== ':') return fail();
      return [key.text, value()];
    });
    return Object.fromEntries(fields);
  };
  const listUntil = <T>(close: string, item: () => T): T[] => {
    const items: T[] = [];
    while (tokens[at]?.mark !== close) {
      items.push(item());
      if (tokens[at]?.mark === ',') at += 1;
      else if (tokens[at]?.mark !== close) fail();
    }
    at += 1;
    return items;
  };
  try {
    tokens.push({ mark: 'end' });
    return listUntil('end', value);
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}

const unescaped = (inner: string): string =>
  inner.replace(/\\(?:u([0-9a-f]{4})|(.))/g, (_, code: string | undefined, c: string) =>
    code ? String.fromCharCode(parseInt(code, 16)) : c,
  );
