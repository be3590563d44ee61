/** When a smooth function of time passes through zero. */
export interface Crossing {
  /** On the scale of the argument. */
  readonly t: number;
  readonly rising: boolean;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * All zeros of `f` between two times, grazing ones too: samples, narrows every turning point between samples that comes
 * near zero, then bisects.
 * @param steps number of samples @param accuracy of the time, on its own scale
 */
export function crossings(
  f: (t: number) => number,
  from: number,
  to: number,
  steps: number,
  accuracy: number,
): Crossing[] {
  const width = (to - from) / steps;
  const t = Array.from({ length: steps + 1 }, (_, i) => from + i * width);
  const points = t.map((x) => ({ x, y: f(x) }));
  for (let i = 1; i < steps; i++) {
    const [a, b, c] = [points[i - 1], points[i], points[i + 1]].map((p) => p as Point);
    // A peak below zero or a dip above it between samples of one sign may still reach over.
    const peak =
      (b as Point).y < 0 && (b as Point).y >= (a as Point).y && (b as Point).y >= (c as Point).y;
    const dip =
      (b as Point).y >= 0 && (b as Point).y <= (a as Point).y && (b as Point).y <= (c as Point).y;
    if (peak || dip)
      points.push(turning(f, (a as Point).x, (c as Point).x, peak ? 1 : -1, accuracy));
  }
  points.sort((p, q) => p.x - q.x);
  const found: Crossing[] = [];
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1] as Point, points[i] as Point];
    if (a.y < 0 !== b.y < 0) found.push({ t: bisect(f, a, b, accuracy), rising: a.y < 0 });
  }
  return found;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

function turning(
  f: (t: number) => number,
  low: number,
  high: number,
  sign: 1 | -1,
  accuracy: number,
): Point {
  let [a, b] = [low, high];
  while (b - a > accuracy) {
    const [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
    if (sign * f(c) > sign * f(d)) b = d;
    else a = c;
  }
  const x = (a + b) / 2;
  return { x, y: f(x) };
}

function bisect(f: (t: number) => number, a: Point, b: Point, accuracy: number): number {
  let [low, high] = [a.x, b.x];
  const below = a.y < 0;
  while (high - low > accuracy) {
    const middle = (low + high) / 2;
    if (f(middle) < 0 === below) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
