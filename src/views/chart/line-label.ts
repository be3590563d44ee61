import { FAINT, hue, REJECTED } from '../svg/inks.js';
import { px, svg, type SvgNode } from '../svg/svg-node.js';
import { clipLine, distanceTo, lengthOf, pointAlong } from './clip.js';
import { HALO } from './halo.js';
import { textWidth, type Room } from './labels.js';
import type { ChartLine } from './scene.js';
import type { ChartWindow, Point } from './window.js';

/** A line with its pieces on the drawing. */
export interface LineShape {
  readonly line: ChartLine;
  readonly pieces: readonly Point[][];
}

/** Lines that share a label: one, or several of a body too close together for labels of their own. */
interface Labelled {
  readonly lines: readonly ChartLine[];
  readonly visible: readonly Point[];
}

/** Twice the height of a label, body and time: nearer, one cannot tell which line a label belongs to. */
const NEAR_PX = 64;
/** Lines that turn more against the one before are told apart by their direction. */
const PARALLEL_DEG = 5;
/** Two lines of a body keep their own labels: one for both would save nothing. */
const FEWEST_TOGETHER = 3;
const WHERE_COMPARED = [0.1, 0.5, 0.9];

interface Visible {
  readonly line: ChartLine;
  readonly part: readonly Point[];
}

function longestPart(pieces: readonly Point[][], { frame }: ChartWindow): Point[] {
  const visible = pieces.flatMap((piece) => clipLine(piece, frame));
  return visible.reduce<Point[]>((a, b) => (lengthOf(b) > lengthOf(a) ? b : a), []);
}

const alongDeg = (part: readonly Point[]) => pointAlong(part, lengthOf(part) / 2).angleDeg;

/** Whether two lines run alike, whichever way each is drawn. */
function isParallel(a: readonly Point[], b: readonly Point[]): boolean {
  const turn = Math.abs(alongDeg(a) - alongDeg(b)) % 180;
  return Math.min(turn, 180 - turn) <= PARALLEL_DEG;
}

function isNear(a: readonly Point[], b: readonly Point[]): boolean {
  const length = lengthOf(a);
  return WHERE_COMPARED.some(
    (fraction) => distanceTo(b, pointAlong(a, fraction * length).at) < NEAR_PX,
  );
}

/** Whether a line belongs to these of its body: it runs as the last of them does and near one of them. */
function joins({ line, part }: Visible, group: readonly Visible[]): boolean {
  const last = group.at(-1);
  if (!last || line.isOff || last.line.isOff || last.line.body !== line.body) return false;
  return isParallel(part, last.part) && group.some((other) => isNear(part, other.part));
}

/** Which lines share a label; those of one body that crowd do. */
function together(shapes: readonly LineShape[], w: ChartWindow): Labelled[] {
  const groups: Visible[][] = [];
  for (const { line, pieces } of shapes) {
    const seen = { line, part: longestPart(pieces, w) };
    if (seen.part.length < 2) continue;
    const group = groups.find((g) => joins(seen, g));
    if (group) group.push(seen);
    else groups.push([seen]);
  }
  return groups.flatMap((group) => {
    const middle = group[Math.floor(group.length / 2)];
    if (!middle || group.length < FEWEST_TOGETHER)
      return group.map(({ line, part }) => ({ lines: [line], visible: part }));
    return [{ lines: group.map(({ line }) => line), visible: middle.part }];
  });
}

function textsOf(lines: readonly ChartLine[]): [above: string, below: string] {
  const first = lines[0] as ChartLine;
  if (lines.length === 1) return [first.body, first.isOff ? `${first.time} off` : first.time];
  const [from, to] = [first.time, lines.at(-1)?.time];
  const times = from === to ? from : `${from}–${to}`;
  return [`${first.body} ×${lines.length}`, times];
}

/**
 * Body above the line and time below it, along the line; lines of one body that crowd have one label with their
 * number and their first and last time. Nothing where there is no room.
 */
export function lineLabels(shapes: readonly LineShape[], w: ChartWindow, room: Room): SvgNode[] {
  return together(shapes, w).flatMap(({ lines, visible }) => {
    const [above, below] = textsOf(lines);
    const label = room.place(visible, Math.max(textWidth(above), textWidth(below)));
    if (!label) return [];
    const line = lines[0] as ChartLine;
    const place = `translate(${px(label.at[0])},${px(label.at[1])}) rotate(${px(label.angleDeg)})`;
    return svg(
      'g',
      { transform: place, 'text-anchor': 'middle', ...HALO },
      svg('text', { y: -6, fill: line.isOff ? REJECTED : hue(line.style) }, above),
      svg('text', { y: 16, fill: FAINT, 'font-size': 11.5 }, below),
    );
  });
}
