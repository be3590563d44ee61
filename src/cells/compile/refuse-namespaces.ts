import { parse, tokenizer } from 'acorn';
import { transform } from 'sucrase';
import { CellSyntaxError } from '../errors/cell-syntax-error.js';

interface Token {
  readonly label: string;
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/**
 * Refuses a namespace that holds values: the removal of types would take them away without a word.
 * A namespace of types alone, and `declare namespace`, pass.
 */
export function refuseNamespaces(source: string): void {
  if (!/\b(namespace|module)[ \t]+[\p{ID_Start}$_]/u.test(source)) return;
  const tokens = tokensOf(source);
  for (let i = 0; i < tokens.length; i++) {
    if (wordAt(tokens, i) === 'declare' && isBlockAhead(source, tokens, i)) {
      i = endOfBlock(tokens, openingAfter(tokens, i));
      continue;
    }
    if (!isNamespace(source, tokens, i)) continue;
    const open = openingAfter(tokens, i);
    const close = endOfBlock(tokens, open);
    const body = source.slice(tokens[open]?.end, tokens[close]?.start);
    if (holdsValues(body)) throw refusal(source, tokens, i, open);
  }
}

/** The tokens up to the first that JavaScript does not know. */
function tokensOf(source: string): Token[] {
  const tokens: Token[] = [];
  try {
    for (const token of tokenizer(source, { ecmaVersion: 'latest', sourceType: 'module' }))
      tokens.push({
        ...token,
        label: token.type.label,
        text: source.slice(token.start, token.end),
      });
  } catch {
    // What cannot be read is refused by the parser.
  }
  return tokens;
}

function wordAt(tokens: readonly Token[], i: number): string | null {
  const token = tokens[i];
  return token?.label === 'name' ? token.text : null;
}

/** `namespace A.B {` with its words on one line; anything else is an ordinary name. */
function isNamespace(source: string, tokens: readonly Token[], i: number): boolean {
  const word = wordAt(tokens, i);
  if (word !== 'namespace' && word !== 'module') return false;
  if (tokens[i - 1]?.label === '.' || wordAt(tokens, i + 1) === null) return false;
  if (source.slice(tokens[i]?.end, tokens[i + 1]?.start).includes('\n')) return false;
  let at = i + 2;
  while (tokens[at]?.label === '.' && wordAt(tokens, at + 1) !== null) at += 2;
  return tokens[at]?.label === '{';
}

/** True for `declare namespace X {`, `declare module 'x' {` and `declare global {`. */
function isBlockAhead(source: string, tokens: readonly Token[], i: number): boolean {
  const next = wordAt(tokens, i + 1);
  if (next === 'global') return tokens[i + 2]?.label === '{';
  if (next === 'module' && tokens[i + 2]?.label === 'string') return tokens[i + 3]?.label === '{';
  return isNamespace(source, tokens, i + 1);
}

function openingAfter(tokens: readonly Token[], i: number): number {
  let at = i;
  while (at < tokens.length && tokens[at]?.label !== '{') at++;
  return at;
}

/** Index of the bracket that closes the one at `open`, or of the last token. */
function endOfBlock(tokens: readonly Token[], open: number): number {
  let depth = 0;
  for (let i = open; i < tokens.length; i++) {
    const label = tokens[i]?.label;
    if (label === '{' || label === '${') depth++;
    else if (label === '}' && --depth === 0) return i;
  }
  return tokens.length - 1;
}

/** What is left of the body without its types; namespaces in it are looked at by themselves. */
function holdsValues(body: string): boolean {
  try {
    const { code } = transform(body, { transforms: ['typescript'], disableESTransforms: true });
    const { body: left } = parse(code, { ecmaVersion: 'latest', sourceType: 'module' });
    return left.some((s) => s.type !== 'EmptyStatement');
  } catch {
    return true;
  }
}

function refusal(source: string, tokens: readonly Token[], i: number, open: number) {
  const start = tokens[i]?.start ?? 0;
  const name = source.slice(tokens[i + 1]?.start, tokens[open]?.start).trim();
  const before = source.slice(0, start);
  return new CellSyntaxError(
    `the namespace ${name} holds values, which would be lost: write an object, ` +
      `const ${name.replace(/^.*\./, '')} = { … }, or put its exports in a local file and import * as from it; ` +
      'a namespace that holds types alone may stay',
    before.split('\n').length,
    start - before.lastIndexOf('\n'),
  );
}
