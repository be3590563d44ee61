import { parse } from 'acorn';
import { transform } from 'sucrase';

export type Completeness =
  | { readonly status: 'complete' | 'invalid' }
  | { readonly status: 'incomplete'; readonly indent: string };

/** Tells whether typing Enter should run the code or start a new line. */
export function isComplete(code: string): Completeness {
  const text = code.trimEnd();
  if (/\n[ \t]*\n[ \t]*$/.test(code)) return { status: 'complete' };
  try {
    const { code: js } = transform(code, { transforms: ['typescript'], disableESTransforms: true });
    parse(js, { ecmaVersion: 'latest', sourceType: 'module', allowAwaitOutsideFunction: true });
    return { status: 'complete' };
  } catch (error) {
    const { message, pos, loc } = error as Error & { pos?: number; loc?: { line: number } };
    const lines = text.split('\n').length;
    const atEnd = (pos ?? 0) >= text.length || (loc?.line ?? 0) > lines;
    const open = /Unterminated (template|comment)/.test(message) || (atEnd && isOpen(text));
    return open ? { status: 'incomplete', indent: indentAfter(text) } : { status: 'invalid' };
  }
}

/** True if more code could still make the text valid: brackets are open or an operator waits. */
function isOpen(text: string): boolean {
  return !/[;)\]]$/.test(text) || count(text, /[([{]/g) > count(text, /[)\]}]/g);
}

function indentAfter(text: string): string {
  const last = text.slice(text.lastIndexOf('\n') + 1);
  const indent = /^[ \t]*/.exec(last)?.[0] ?? '';
  return /[{[(]$/.test(last) ? `${indent}  ` : indent;
}

const count = (text: string, pattern: RegExp): number => (text.match(pattern) ?? []).length;
