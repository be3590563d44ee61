import type { PageOutput } from '../client/page-data.js';

/** A place where a new run differs from the edition. */
export interface Difference {
  readonly cell: string;
  /** What was compared: `text/plain`, `stdout`, a view's data. */
  readonly where: string;
  readonly published: string;
  readonly now: string;
}

/**
 * How far two figures printed in full may differ: programs and machines differ by a unit in the last place of sines
 * and the like, which adds up over a working. A figure that is rounded in print must be the same.
 */
const RELATIVE = 1e-9;
const FULL_DIGITS = 12;
const NUMBER = /[+\-−]?\d+(?:\.\d+)?(?:e[+-]?\d+)?/gi;
const MOST = 20;

export interface Comparison {
  readonly differences: readonly Difference[];
  /** How many numbers were compared. */
  readonly numbers: number;
}

/** Compares the outputs of one cell, every number and all text between them. */
export function compareOutputs(
  cell: string,
  was: readonly PageOutput[],
  is: readonly PageOutput[],
): Comparison {
  const differences: Difference[] = [];
  let numbers = 0;
  const [before, after] = [was.flatMap(texts), is.flatMap(texts)];
  for (let i = 0; i < Math.max(before.length, after.length); i++) {
    const [published, now] = [before[i], after[i]];
    const where = (published ?? now)?.where ?? '';
    if (!published || !now || published.where !== now.where) {
      differences.push({
        cell,
        where,
        published: excerpt(published?.text ?? 'nothing'),
        now: excerpt(now?.text ?? 'nothing'),
      });
      continue;
    }
    const found = compareTexts(published.text, now.text);
    numbers += found.numbers;
    for (const [a, b] of found.pairs.slice(0, MOST))
      differences.push({ cell, where, published: a, now: b });
  }
  return { differences, numbers };
}

const unstyled = (text: string): string => text.replace(/\u001b\[[0-9;]*m/g, '');

/** An output as texts to compare; of an error, what it says and not where the program lies. */
function texts(output: PageOutput): { where: string; text: string }[] {
  if (output.type === 'stream') return [{ where: output.name, text: output.text }];
  if (output.type === 'error')
    return [{ where: 'error', text: unstyled(output.traceback).split('\n')[0] ?? '' }];
  return Object.entries(output.data).map(([where, value]) => ({
    where,
    text: typeof value === 'string' ? value : JSON.stringify(value),
  }));
}

function compareTexts(a: string, b: string): { pairs: [string, string][]; numbers: number } {
  const [ours, theirs] = [a.match(NUMBER) ?? [], b.match(NUMBER) ?? []];
  if (a.replace(NUMBER, '#') !== b.replace(NUMBER, '#'))
    return { pairs: [[excerpt(a), excerpt(b)]], numbers: ours.length };
  const pairs: [string, string][] = [];
  ours.forEach((x, i) => {
    const y = theirs[i] ?? '';
    if (!sameNumber(x, y)) pairs.push([x, y]);
  });
  return { pairs, numbers: ours.length };
}

function sameNumber(a: string, b: string): boolean {
  if (a === b) return true;
  const full = (text: string) => text.replace(/\D/g, '').length >= FULL_DIGITS;
  if (!full(a) && !full(b)) return false;
  const [x, y] = [a, b].map((text) => Number(text.replace('−', '-'))) as [number, number];
  return Math.abs(x - y) <= RELATIVE * Math.max(Math.abs(x), Math.abs(y), 1);
}

const excerpt = (text: string): string => {
  const line = unstyled(text).replace(/\s+/g, ' ').trim();
  return line.length > 120 ? `${line.slice(0, 117)}…` : line;
};
