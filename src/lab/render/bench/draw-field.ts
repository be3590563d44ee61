import type { BenchBody } from '../../../views/bench/bench-sky.js';
import { fieldPoint, type FieldPoint, type Pointing } from '../../../views/bench/optics.js';

export interface FieldInks {
  readonly paper: string;
  readonly sky: string;
  readonly sea: string;
  readonly ink: string;
  readonly body: string;
}

/** Half the height of the field, minutes of arc: a telescope of about 3½ times with a field of 5°. */
const HALF_FIELD_ARCMIN = 75;

const rim = 40;

/** Draws the field: the sea direct, the body reflected. @returns the body's middle in the field, if it is in front */
export function drawField(
  context: CanvasRenderingContext2D,
  body: BenchBody,
  pointing: Pointing,
  turnedDeg: number,
  inks: FieldInks,
): FieldPoint | null {
  const { width, height } = context.canvas;
  const radius = height / 2 - 4;
  const scale = radius / HALF_FIELD_ARCMIN;
  const x = (p: FieldPoint) => width / 2 + p.xArcmin * scale;
  const y = (p: FieldPoint) => height / 2 - p.yArcmin * scale;
  context.fillStyle = inks.paper;
  context.fillRect(0, 0, width, height);
  context.save();
  context.beginPath();
  context.arc(width / 2, height / 2, radius, 0, 2 * Math.PI);
  context.clip();
  context.fillStyle = inks.sky;
  context.fillRect(0, 0, width, height);
  drawSea(context, body, pointing, inks, x, y);
  const middle = drawBody(context, body, pointing, turnedDeg, inks, x, y);
  context.restore();
  context.strokeStyle = inks.ink;
  context.lineWidth = 2;
  context.beginPath();
  context.arc(width / 2, height / 2, radius, 0, 2 * Math.PI);
  context.stroke();
  return middle;
}

type Place = (p: FieldPoint) => number;

function drawSea(
  context: CanvasRenderingContext2D,
  body: BenchBody,
  pointing: Pointing,
  inks: FieldInks,
  x: Place,
  y: Place,
): void {
  const { width, height } = context.canvas;
  const points: FieldPoint[] = [];
  for (let right = -3; right <= 3; right += 0.5) {
    const seen = { rightDeg: pointing.panDeg + right, upDeg: -body.dipArcmin / 60 };
    const point = fieldPoint(seen, pointing, 0);
    if (point) points.push(point);
  }
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return;
  const down = {
    x: Math.sin((-pointing.tiltDeg * Math.PI) / 180),
    y: Math.cos((pointing.tiltDeg * Math.PI) / 180),
  };
  const reach = width + height;
  context.beginPath();
  points.forEach((p, i) => (i ? context.lineTo(x(p), y(p)) : context.moveTo(x(p), y(p))));
  context.strokeStyle = inks.ink;
  context.lineWidth = 1.6;
  context.stroke();
  context.lineTo(x(last) + down.x * reach, y(last) + down.y * reach);
  context.lineTo(x(first) + down.x * reach, y(first) + down.y * reach);
  context.closePath();
  context.fillStyle = inks.sea;
  context.fill();
}

function drawBody(
  context: CanvasRenderingContext2D,
  body: BenchBody,
  pointing: Pointing,
  turnedDeg: number,
  inks: FieldInks,
  x: Place,
  y: Place,
): FieldPoint | null {
  const upDeg = (body.lowerDeg + body.upperDeg) / 2;
  const middle = fieldPoint({ rightDeg: 0, upDeg }, pointing, turnedDeg);
  if (!middle) return null;
  context.beginPath();
  if (body.halfWidthArcmin === 0) context.arc(x(middle), y(middle), 2.6, 0, 2 * Math.PI);
  else {
    const halfHeightDeg = (body.upperDeg - body.lowerDeg) / 2;
    const halfWidthDeg = body.halfWidthArcmin / 60 / Math.cos((upDeg * Math.PI) / 180);
    for (let i = 0; i < rim; i++) {
      const a = (i / rim) * 2 * Math.PI;
      const seen = {
        rightDeg: halfWidthDeg * Math.sin(a),
        upDeg: upDeg - halfHeightDeg * Math.cos(a),
      };
      const point = fieldPoint(seen, pointing, turnedDeg);
      if (!point) return middle;
      if (i === 0) context.moveTo(x(point), y(point));
      else context.lineTo(x(point), y(point));
    }
    context.closePath();
  }
  context.globalAlpha = 0.85;
  context.fillStyle = inks.body;
  context.fill();
  context.globalAlpha = 1;
  return middle;
}

/** Whether a point lies in the field. */
export const inField = (p: FieldPoint | null): boolean =>
  p !== null && Math.hypot(p.xArcmin, p.yArcmin) < HALF_FIELD_ARCMIN + 16;
