/** A rectangle of a drawing, in pixels. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Width of a character, bold of 11.5 px in a wide face such as DejaVu Sans, and of any other, a little generous. */
const BOLD_PX = 8;
const PLAIN_PX = 7;

export const textPx = (text: string, isBold = false): number =>
  [...text].length * (isBold ? BOLD_PX : PLAIN_PX);

const apart = (a: Rect, b: Rect): boolean =>
  a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;

/** Room for upright texts in one panel, so that none lies over another. */
export class LabelRoom {
  private readonly taken: Rect[] = [];
  constructor(private readonly panel: Rect) {}

  take(rect: Rect): void {
    this.taken.push(rect);
  }

  private lies(rect: Rect): boolean {
    const { x, y, width, height } = this.panel;
    return (
      rect.x >= x &&
      rect.y >= y &&
      rect.x + rect.width <= x + width &&
      rect.y + rect.height <= y + height
    );
  }

  /** The first of these places that is inside the panel and free, which is then taken; null when none is. */
  place(candidates: readonly Rect[]): Rect | null {
    const free = candidates.find((c) => this.lies(c) && this.taken.every((t) => apart(c, t)));
    if (free) this.taken.push(free);
    return free ?? null;
  }
}

/** Places for a block of text about a mark: right, left, above, below, and askew. */
export function around(x: number, y: number, gap: number, width: number, height: number): Rect[] {
  const at = (dx: number, dy: number): Rect => ({ x: x + dx, y: y + dy, width, height });
  const [right, left, middle] = [gap, -gap - width, -width / 2];
  const [level, over, under] = [-height / 2, -gap - height, gap];
  return [
    at(right, level),
    at(left, level),
    at(middle, over),
    at(right, over),
    at(left, over),
    at(right, under),
    at(left, under),
    at(middle, under),
    at(middle, over - 10),
    at(right, over - 12),
    at(left, over - 12),
    at(right, under + 12),
    at(left, under + 12),
  ];
}
