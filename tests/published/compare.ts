/**
 * One way to compare with the outside, two faces: the gate in tests/published/*.test.ts and the report of
 * `npm run accuracy`. A check that makes fewer comparisons than it announces fails, so none is skipped silently.
 */

/** One comparison of a number of ours with a published one, both in the unit of the check. */
export interface Comparison {
  /** Which case: `2039-11 Venus`, `h 10°`. */
  readonly label: string;
  readonly ours: number;
  readonly theirs: number;
}

/** A set of comparisons of one quantity with one source. */
export interface Check {
  /** Heading in the report: `Places`, `Time`, `Corrections`. */
  readonly group: string;
  /** What: `Moon`, `Dip`. */
  readonly subject: string;
  /** Of it: `GHA`, `declination`. */
  readonly quantity: string;
  readonly unit: string;
  /** Greatest difference allowed, in `unit`. */
  readonly tolerance: number;
  /** Why that tolerance: printed digits, difference of models. */
  readonly reason: string;
  /** Title, edition, page; or package and version. */
  readonly source: string;
  /** How many comparisons the check must make. */
  readonly expected: number;
  /** Differences are taken modulo this, e.g. 21600 for minutes of arc round the circle. */
  readonly modulo?: number;
  readonly cases: () => Iterable<Comparison>;
}

export interface Outcome {
  readonly check: Check;
  readonly count: number;
  /** Greatest absolute difference, in the unit of the check; NaN if a value was not finite. */
  readonly worst: number;
  readonly worstLabel: string;
  readonly rms: number;
  /** Empty when the check holds; else whole sentences. */
  readonly failures: readonly string[];
}

/** Makes the comparisons of a check. */
export function runCheck(check: Check): Outcome {
  let [count, worst, worstLabel, squares] = [0, 0, '', 0];
  const failures: string[] = [];
  for (const { label, ours, theirs } of check.cases()) {
    count += 1;
    const difference = Math.abs(wrapped(ours - theirs, check.modulo));
    squares += difference ** 2;
    if (!(difference <= worst) && !Number.isNaN(worst)) [worst, worstLabel] = [difference, label];
    if (!(difference <= check.tolerance) && failures.length < 5)
      failures.push(
        `${label}: ours ${ours}, theirs ${theirs}, difference ${difference} ${check.unit}`,
      );
  }
  if (count !== check.expected)
    failures.unshift(`${count} comparisons were made, ${check.expected} were announced`);
  return {
    check,
    count,
    worst,
    worstLabel,
    rms: Math.sqrt(squares / Math.max(count, 1)),
    failures,
  };
}

function wrapped(difference: number, modulo: number | undefined): number {
  if (modulo === undefined) return difference;
  return difference - modulo * Math.round(difference / modulo);
}

/** A Markdown table, one row a check, in groups. */
export function report(outcomes: readonly Outcome[]): string {
  const lines: string[] = [];
  for (const group of new Set(outcomes.map((o) => o.check.group))) {
    lines.push(`### ${group}`, '');
    lines.push('| What | Quantity | Worst error | Tolerance | Comparisons | Against |');
    lines.push('|---|---|---|---|---|---|');
    for (const { check, ...o } of outcomes.filter((x) => x.check.group === group)) {
      const flag = o.failures.length > 0 ? ' **fails**' : '';
      lines.push(
        `| ${check.subject} | ${check.quantity} | ${digits(o.worst)} ${check.unit}${flag} | ` +
          `${digits(check.tolerance)} ${check.unit} | ${o.count} | ${check.source} |`,
      );
    }
    lines.push('');
  }
  return lines.join('\n');
}

/**
 * Fewer rows for reading: checks of the same thing in the same unit become one, with the worst of them, the greatest tolerance,
 * all comparisons and all sources.
 */
export function merged(outcomes: readonly Outcome[]): Outcome[] {
  const rows = new Map<string, Outcome>();
  for (const o of outcomes) {
    const { group, subject, quantity, unit } = o.check;
    const key = [group, subject, quantity, unit].join('|');
    const known = rows.get(key);
    if (!known) {
      rows.set(key, o);
      continue;
    }
    const worse = o.worst > known.worst || Number.isNaN(o.worst) ? o : known;
    rows.set(key, {
      ...worse,
      check: {
        ...o.check,
        tolerance: Math.max(o.check.tolerance, known.check.tolerance),
        source: `${known.check.source}; ${o.check.source}`,
      },
      count: known.count + o.count,
      failures: [...known.failures, ...o.failures],
    });
  }
  return [...rows.values()];
}

/** Two significant digits, no exponent from 0.00001 up. */
function digits(value: number): string {
  if (value === 0) return '0';
  if (value < 1e-5) return value.toExponential(1);
  return String(Number(value.toPrecision(2)));
}
