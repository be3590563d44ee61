import type { BenchBody } from '../../../views/bench/bench-sky.js';
import { fieldPoint, type FieldPoint, type Pointing } from '../../../views/bench/optics.js';
import type { FieldPaper } from './field-scale.js';

const RAD = Math.PI / 180;
const RIM = 40;

/** How one image of the body comes into the field. */
export interface BodyImage {
  readonly turnedDeg: number;
  /** Seen in the basin: as far below the level as the body is above it, and upside down. */
  readonly isMirrored: boolean;
}

/** A point of the disc, in radii: to the right of the middle and above it. */
type OnDisc = readonly [right: number, up: number];

/** The edge of what is lit: the whole rim, or half of it and the terminator, which is half an ellipse. */
export function litEdge(body: BenchBody): OnDisc[] {
  const { phase } = body;
  if (!phase)
    return Array.from({ length: RIM }, (_, i): OnDisc => {
      const a = (i / RIM) * 2 * Math.PI;
      return [Math.sin(a), -Math.cos(a)];
    });
  const [sin, cos] = [Math.sin(phase.brightLimbDeg * RAD), Math.cos(phase.brightLimbDeg * RAD)];
  const depth = -Math.cos(phase.phaseAngleDeg * RAD);
  const turned = (u: number, v: number): OnDisc => [u * sin + v * cos, u * cos - v * sin];
  const half = RIM / 2;
  const at = (i: number) => (-90 + (i / half) * 180) * RAD;
  const steps = Array.from({ length: half + 1 }, (_, i) => i);
  return [
    ...steps.map((i) => turned(Math.cos(at(i)), Math.sin(at(i)))),
    ...steps.slice(1, -1).map((i) => turned(depth * Math.cos(at(i)), -Math.sin(at(i)))),
  ];
}

/** Where a point of the disc meets the field. */
export function discPoint(
  body: BenchBody,
  [right, up]: OnDisc,
  pointing: Pointing,
  { turnedDeg, isMirrored }: BodyImage,
): FieldPoint | null {
  const middle = (body.lowerDeg + body.upperDeg) / 2;
  const halfHeight = (body.upperDeg - body.lowerDeg) / 2;
  const halfWidth = body.halfWidthArcmin / 60 / Math.cos(middle * RAD);
  const upDeg = middle + halfHeight * up;
  return fieldPoint(
    { rightDeg: halfWidth * right, upDeg: isMirrored ? -upDeg : upDeg },
    pointing,
    turnedDeg,
  );
}

/** Draws one image of the body. @param strength 0 not to be seen, 1 in full */
export function drawBody(
  { context, x, y }: FieldPaper,
  body: BenchBody,
  pointing: Pointing,
  image: BodyImage,
  ink: string,
  strength: number,
): void {
  const middle = discPoint(body, [0, 0], pointing, image);
  if (!middle || strength <= 0) return;
  context.beginPath();
  if (body.halfWidthArcmin === 0) context.arc(x(middle), y(middle), 2.6 + strength, 0, 2 * Math.PI);
  else {
    let isFirst = true;
    for (const place of litEdge(body)) {
      const point = discPoint(body, place, pointing, image);
      if (!point) return;
      if (isFirst) context.moveTo(x(point), y(point));
      else context.lineTo(x(point), y(point));
      isFirst = false;
    }
    context.closePath();
  }
  context.globalAlpha = 0.85 * strength;
  context.fillStyle = ink;
  context.fill();
  context.globalAlpha = 1;
}
