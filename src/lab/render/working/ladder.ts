import type { WorkingRow } from '../../../views/working/working-data.js';
import { s } from '../dom.js';

/** One rung of the ladder of corrections: from where to where the altitude moves, 0 to 1 across the column. */
export interface Rung {
  readonly from: number;
  readonly to: number;
  readonly isLeftOut: boolean;
  readonly isRest: boolean;
}

/**
 * The ladder beside the steps from a reading to the observed altitude: each correction as a bar that begins where
 * the one before ended, all to one scale.
 */
export function ladder(rows: readonly WorkingRow[], leftOut: ReadonlySet<string>): (Rung | null)[] {
  const last = rows.findLastIndex((row) => row.correctionArcmin !== undefined);
  const start = rows.findIndex((row) => row.rule === 'reading');
  if (start < 0 || last < 1 || rows.some((row) => row.rule === 'halving'))
    return rows.map(() => null);
  let at = 0;
  const spans = rows.map((row, i) => {
    if (i < start || i > last + 1) return null;
    const from = at;
    const isLeftOut = leftOut.has(row.rule);
    if (row.correctionArcmin !== undefined && !isLeftOut) at += row.correctionArcmin;
    const to = isLeftOut ? from + (row.correctionArcmin ?? 0) : at;
    return { from, to, isLeftOut, isRest: row.correctionArcmin === undefined };
  });
  const ends = spans.flatMap((span) => (span ? [span.from, span.to] : []));
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const scale = (value: number) => (high > low ? (value - low) / (high - low) : 0.5);
  return spans.map((span) => span && { ...span, from: scale(span.from), to: scale(span.to) });
}

const WIDTH = 84;
const HEIGHT = 18;
const PAD = 4;

/** A rung drawn: a bar with a head that points where the altitude goes, or a mark at a value reached. */
export function rungDrawing({ from, to, isLeftOut, isRest }: Rung): SVGSVGElement {
  const x = (f: number) => PAD + f * (WIDTH - 2 * PAD);
  const [a, b] = [x(from), x(to)];
  const y = HEIGHT / 2;
  const svg = s('svg', { width: WIDTH, height: HEIGHT, viewBox: `0 0 ${WIDTH} ${HEIGHT}` });
  if (isRest) {
    svg.append(s('path', { d: `M${b},2V${HEIGHT - 2}`, class: 'ch-rung-rest' }));
    return svg;
  }
  const cls = isLeftOut ? 'ch-rung ch-rung-out' : 'ch-rung';
  // A short rung has a small head of the same shape.
  const size = Math.min(4, Math.abs(b - a));
  const back = size * Math.sign(b - a);
  const head = `M${b - back},${y - size}L${b},${y}L${b - back},${y + size}`;
  svg.append(
    s('path', { d: `M${a},${y}H${b}`, class: cls }),
    s('path', { d: `M${a},${y - 4}V${y + 4}`, class: 'ch-rung-foot' }),
    s('path', { d: Math.abs(b - a) > 1 ? head : '', class: cls }),
  );
  return svg;
}
