/** Compares what a notebook shows with what it showed when its outputs were kept. */

/**
 * Numbers may differ by this much, absolutely below 1 and relatively above: the mathematical functions of two
 * machines differ in their last digit (about 1e-16), and long sums and small differences of large numbers
 * enlarge that; 1e-9 of a minute of arc is 2 µm on the Earth.
 */
export const TOLERANCE = 1e-9;

/** Comes from a view's data, whose last digits may differ between machines (see TOLERANCE). */
const SUM_OF_DATA = 'viewId';

/** Kinds of output whose content is compared; others must merely be there again. */
const COMPARED = /^text\/plain$|^application\/vnd\.plotly\.|^application\/vnd\.cocked-hat\./;
const NUMBER = /[-+−]?\d+(?:\.\d+)?(?:e[-+]?\d+)?/gi;

/** An output of a code cell, as the notebook format has it. */
export interface Output {
  readonly output_type: string;
  readonly name?: string;
  readonly text?: string | readonly string[];
  readonly data?: Readonly<Record<string, unknown>>;
  readonly ename?: string;
  readonly evalue?: string;
}

const joined = (text: unknown) => (Array.isArray(text) ? text.join('') : text);
const near = (a: number, b: number) =>
  Object.is(a, b) || Math.abs(a - b) <= TOLERANCE * Math.max(1, Math.abs(a), Math.abs(b));
const numbersOf = (text: string) =>
  (text.match(NUMBER) ?? []).map((word) => Number(word.replace('−', '-')));

function compareText(kept: string, now: string, where: string): string[] {
  if (kept === now) return [];
  const was = numbersOf(kept);
  const is = numbersOf(now);
  const same =
    kept.replace(NUMBER, '#') === now.replace(NUMBER, '#') &&
    was.every((number, index) => near(number, is[index] ?? NaN));
  return same ? [] : [`${where}: kept ${JSON.stringify(kept)}, now ${JSON.stringify(now)}`];
}

function compareFields(kept: object, now: object, where: string): string[] {
  const was = new Map(Object.entries(kept));
  const is = new Map(Object.entries(now));
  const names = [...new Set([...was.keys(), ...is.keys()])].filter((name) => name !== SUM_OF_DATA);
  return names.flatMap((name) => compareJson(was.get(name), is.get(name), `${where}.${name}`));
}

/** Differences between two JSON values, each with its path; numbers within TOLERANCE are equal. */
export function compareJson(kept: unknown, now: unknown, where: string): string[] {
  if (typeof kept === 'number' && typeof now === 'number' && near(kept, now)) return [];
  if (typeof kept === 'string' && typeof now === 'string') return compareText(kept, now, where);
  if (kept && now && typeof kept === 'object' && typeof now === 'object')
    if (Array.isArray(kept) === Array.isArray(now)) return compareFields(kept, now, where);
  if (Object.is(kept, now)) return [];
  return [`${where}: kept ${JSON.stringify(kept)}, now ${JSON.stringify(now)}`];
}

function compareData(kept: Output, now: Output, where: string): string[] {
  const was = kept.data ?? {};
  const is = now.data ?? {};
  const kinds = compareJson(Object.keys(was).sort(), Object.keys(is).sort(), `${where} kinds`);
  if (kinds.length > 0) return kinds;
  return Object.keys(was)
    .filter((kind) => COMPARED.test(kind))
    .flatMap((kind) => compareJson(joined(was[kind]), joined(is[kind]), `${where} ${kind}`));
}

/** Differences between the outputs of one cell; none if they agree. */
export function compareOutputs(
  kept: readonly Output[],
  now: readonly Output[],
  where: string,
): string[] {
  const kinds = (outputs: readonly Output[]) => outputs.map((output) => output.output_type);
  const different = compareJson(kinds(kept), kinds(now), `${where} outputs`);
  if (different.length > 0) return different;
  return kept.flatMap((output, index) => {
    const other = now[index]!;
    const at = `${where} output ${index + 1}`;
    const { name, ename, evalue } = output;
    return [
      ...compareJson(name, other.name, `${at} stream`),
      ...compareJson(joined(output.text), joined(other.text), `${at} text`),
      ...compareJson([ename, evalue], [other.ename, other.evalue], `${at} error`),
      ...compareData(output, other, at),
    ];
  });
}
