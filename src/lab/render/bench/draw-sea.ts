import { fieldPoint, type FieldPoint, type Pointing } from '../../../views/bench/optics.js';
import type { FieldPaper } from './field-scale.js';

export interface SeaInks {
  readonly sea: string;
  readonly ink: string;
}

/**
 * The sea and its edge.
 * @param turnedDeg 0 straight ahead; the horizon brought up to the body by an inverted sextant is turned by less than nothing
 * @param edge how sharply the edge stands out, 0 to 1
 */
export function drawSea(
  { context, x, y }: FieldPaper,
  edgeDipArcmin: number,
  pointing: Pointing,
  turnedDeg: number,
  edge: number,
  inks: SeaInks,
): void {
  const points: FieldPoint[] = [];
  for (let right = -3; right <= 3; right += 0.5) {
    const seen = { rightDeg: pointing.panDeg + right, upDeg: -edgeDipArcmin / 60 };
    const point = fieldPoint(seen, pointing, turnedDeg);
    if (point) points.push(point);
  }
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return;
  const tilt = (pointing.tiltDeg * Math.PI) / 180;
  const down = { x: -Math.sin(tilt), y: Math.cos(tilt) };
  const reach = context.canvas.width + context.canvas.height;
  context.beginPath();
  points.forEach((p, i) => (i ? context.lineTo(x(p), y(p)) : context.moveTo(x(p), y(p))));
  context.strokeStyle = inks.ink;
  context.globalAlpha = edge;
  context.lineWidth = 1.6 + 5 * (1 - edge);
  context.stroke();
  context.lineTo(x(last) + down.x * reach, y(last) + down.y * reach);
  context.lineTo(x(first) + down.x * reach, y(first) + down.y * reach);
  context.closePath();
  context.fillStyle = inks.sea;
  context.fill();
  context.globalAlpha = 1;
}
