import { lengthOf, pointAlong } from './clip.js';
import type { Box, Point } from './window.js';

/** Text laid along a line: its middle and its slope, upright for the reader. */
export interface LineLabel {
  readonly at: Point;
  readonly angleDeg: number;
}

const CHAR_PX = 6.6;
const HALF_HEIGHT_PX = 16;

export const textWidth = (text: string): number => [...text].length * CHAR_PX;

/** Discs that stand for what is already taken; a label is a row of discs. */
type Disc = readonly [x: number, y: number, r: number];

const FRACTIONS = [0.16, 0.84, 0.25, 0.75, 0.34, 0.66, 0.09, 0.91, 0.43, 0.57];

function discsOf({ at, angleDeg }: LineLabel, width: number): Disc[] {
  const count = Math.max(2, Math.ceil(width / HALF_HEIGHT_PX));
  const [c, s] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)];
  return Array.from({ length: count }, (_, i) => {
    const d = width * (i / (count - 1) - 0.5);
    return [at[0] + d * c, at[1] + d * s, HALF_HEIGHT_PX] as const;
  });
}

/** Keeps track of taken room so that no two texts of a drawing overlap. */
export class Room {
  private readonly taken: Disc[] = [];
  constructor(private readonly frame: Box) {}

  /** Marks a place as taken, e.g. by the fix and its time. */
  take(x: number, y: number, radius: number): void {
    this.taken.push([x, y, radius]);
  }
  /** Marks the room of a straight text. */
  takeText(x: number, y: number, text: string): void {
    const width = textWidth(text);
    for (let d = 0; d <= width; d += 9) this.taken.push([x + d, y - 4, 9]);
  }
  private isFree(discs: readonly Disc[]): boolean {
    const { left, top, width, height } = this.frame;
    return discs.every(
      ([x, y, r]) =>
        x > left + 8 &&
        x < left + width - 8 &&
        y > top + r &&
        y < top + height - r &&
        this.taken.every(([tx, ty, tr]) => Math.hypot(tx - x, ty - y) > (r + tr) * 0.94),
    );
  }
  /** Whether a straight text starting there is free; takes the room when it is. */
  tryText(x: number, y: number, text: string): boolean {
    const width = textWidth(text);
    const discs: Disc[] = [];
    for (let d = 0; d <= width; d += 9) discs.push([x + d, y - 4, 9]);
    if (!this.isFree(discs)) return false;
    this.taken.push(...discs);
    return true;
  }
  /** A free stretch of the line for a text of that width, or null: then the table alone carries it. */
  place(line: readonly Point[], width: number): LineLabel | null {
    const length = lengthOf(line);
    if (length < width + 20) return null;
    for (const fraction of FRACTIONS) {
      const distance = Math.max(width / 2 + 8, Math.min(length - width / 2 - 8, fraction * length));
      const { at, angleDeg } = pointAlong(line, distance);
      const upright = angleDeg > 90 ? angleDeg - 180 : angleDeg <= -90 ? angleDeg + 180 : angleDeg;
      const label = { at, angleDeg: upright };
      const discs = discsOf(label, width);
      if (!this.isFree(discs)) continue;
      this.taken.push(...discs);
      return label;
    }
    return null;
  }
}
