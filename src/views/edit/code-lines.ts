import { RowAmender } from '../../log/amend/amend-row.js';
import type { Amendment, Corrected } from '../../log/amend/amendment.js';
import { Amendments, entryText } from '../../log/amend/amendments.js';
import { labelNumber, readingLabel } from '../../log/amend/labels.js';
import type { RowStore, RowValues } from '../../log/amend/row-store.js';

type Correction = Extract<Amendment, { kind: 'correct' }>;
type Addition = Extract<Amendment, { kind: 'add' }>;

/** A reading as it was before an amendment of it alone, and after. */
interface Effect {
  readonly number: number;
  readonly before: RowValues | null;
  readonly after: RowValues;
}

const VERDICT = new Set(['accepted', 'reason']);
/** Values by which readings are put into sights: what other lines go by. */
const PLACING = ['utcMs', 'body', 'limb', 'observer', 'instrument', 'horizon', 'round', 'sight'];

const alike = (a: RowValues, b: RowValues, keys: Iterable<string>): boolean =>
  [...keys].every((key) => (a[key] ?? null) === (b[key] ?? null));
const equal = (a: RowValues, b: RowValues): boolean =>
  alike(
    a,
    b,
    [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((key) => !VERDICT.has(key)),
  );
const isVerdict = (a: Amendment) => a.kind === 'reject' || a.kind === 'accept';
const namedBy = (a: Amendment): number[] => ('which' in a ? [a.which].flat().map(labelNumber) : []);

/**
 * Makes amendments, and says with how few lines of code: corrections of one reading become one line with the last text
 * of each entry, wherever that one line does what they did one after another.
 */
export class CodeLines {
  private readonly book: Amendments;
  private readonly amender: RowAmender;
  private readonly effects = new WeakMap<Amendment, Effect>();
  private readonly joined = new WeakMap<
    Amendment,
    { first: Amendment; line: Amendment | null | undefined }
  >();

  constructor(
    private readonly store: RowStore,
    private readonly own: ReadonlySet<string>,
  ) {
    this.book = new Amendments(store, own);
    this.amender = new RowAmender(own);
  }

  apply(amendment: Amendment): void {
    const named = amendment.kind === 'correct' ? labelNumber(amendment.which) : NaN;
    const before = this.store.row(named) ?? null;
    this.book.apply(amendment);
    if (amendment.kind !== 'correct' && amendment.kind !== 'add') return;
    const number = before ? named : ([...this.store.numbers()].at(-1) as number);
    const after = this.store.row(number) as RowValues;
    this.effects.set(amendment, { number, before, after });
  }

  /** The fewest lines found that do what these amendments did, in their order. */
  lines(amendments: readonly Amendment[]): Amendment[] {
    const lines: (Amendment | null)[] = [];
    /** Where the lines of each reading's corrections stand. */
    const places = new Map<number, number[]>();
    for (const amendment of standing(amendments)) {
      const at = lines.push(amendment) - 1;
      const effect = this.effects.get(amendment);
      if (!effect) continue;
      const mine = places.get(effect.number) ?? [];
      places.set(effect.number, [...mine, at]);
      this.joinBack(lines, places.get(effect.number) as number[]);
    }
    return lines.filter((line) => line !== null);
  }

  /** Joins the last line of a reading into the one before it, as long as it can be. */
  private joinBack(lines: (Amendment | null)[], places: number[]): void {
    while (places.length > 1) {
      const [from, to] = places.slice(-2) as [number, number];
      const [first, second] = [lines[from], lines[to]] as [Amendment, Correction];
      if (!this.mayPass(second, lines.slice(from + 1, to))) return;
      const line = this.join(first, second);
      if (line === undefined) return;
      [lines[from], lines[to]] = [line, null];
      places.splice(line === null ? -2 : -1);
    }
  }

  /** Whether the lines between find what they found when this correction is made before them. */
  private mayPass(correction: Correction, between: readonly (Amendment | null)[]): boolean {
    const { number, before, after } = this.effects.get(correction) as Effect;
    const keepsPlace = alike(before as RowValues, after, PLACING);
    const keepsLabel = readingLabel(number, before as RowValues) === readingLabel(number, after);
    return between.every((line) => {
      if (!line || line.kind === 'correct') return true;
      if (isVerdict(line)) return keepsLabel || !namedBy(line).includes(number);
      return keepsPlace;
    });
  }

  /** One line for two; null when nothing is left to do, undefined when two lines are needed. */
  private join(first: Amendment, second: Correction): Amendment | null | undefined {
    const known = this.joined.get(second);
    if (known?.first === first) return known.line;
    const line =
      first.kind === 'add'
        ? this.addedWith(first, second)
        : this.corrected(first as Correction, second);
    this.joined.set(second, { first, line });
    return line;
  }

  private corrected(first: Correction, second: Correction): Correction | null | undefined {
    const { number, before } = this.effects.get(first) as Effect;
    const { after } = this.effects.get(second) as Effect;
    const row = before as RowValues;
    const all = Object.entries({ ...first.entries, ...second.entries });
    const entries = all
      .map(([name, { is }]): [string, Corrected] => [
        name,
        { was: entryText(name, row, this.own), is },
      ])
      .filter(([, { was, is }]) => was !== is);
    if (entries.length === 0) return equal(row, after) ? null : undefined;
    const texts = Object.fromEntries(entries.map(([name, { is }]) => [name, is]));
    const made = this.amender.amend(row, texts).row;
    if (!made || !equal(made, after)) return undefined;
    const line = { ...first, entries: Object.fromEntries(entries) };
    this.effects.set(line, { number, before, after });
    return line;
  }

  private addedWith(first: Addition, second: Correction): Addition | undefined {
    const { number, after: added } = this.effects.get(first) as Effect;
    const { after } = this.effects.get(second) as Effect;
    if (!alike(added, after, PLACING)) return undefined;
    const changed = Object.entries(second.entries).map(([name, { is }]) => [name, is] as const);
    const entries = Object.fromEntries(
      Object.entries({ ...first.entries, ...Object.fromEntries(changed) }).filter(
        ([, text]) => text.trim() !== '',
      ),
    );
    const { row } = this.amender.amend(null, entries);
    const placed = { round: after['round'] ?? null, sight: after['sight'] ?? null };
    if (!row || !equal({ ...row, ...placed }, after)) return undefined;
    const line: Addition = { kind: 'add', entries };
    this.effects.set(line, { number, before: null, after });
    return line;
  }
}

/** Without rejections and acceptances of readings that are all judged again later. */
function standing(amendments: readonly Amendment[]): Amendment[] {
  const judged = new Set<number>();
  return amendments
    .toReversed()
    .filter((a) => {
      if (!isVerdict(a)) return true;
      const numbers = namedBy(a);
      const isOpen = numbers.some((n) => !judged.has(n));
      for (const n of numbers) judged.add(n);
      return isOpen;
    })
    .toReversed();
}
