import type { FieldPoint } from '../../../views/bench/optics.js';

/** Half the height of the field, minutes of arc: a telescope of about 3½ times with a field of 2½°. */
export const HALF_FIELD_ARCMIN = 75;
/** The Sun's disc reaches into the field while its middle is this far outside. */
const HALF_DISC_ARCMIN = 16;

/** Whether a body at that point shows in the field. */
export const inField = (p: FieldPoint | null): boolean =>
  p !== null && Math.hypot(p.xArcmin, p.yArcmin) < HALF_FIELD_ARCMIN + HALF_DISC_ARCMIN;

/** The drawing surface: minutes of arc to pixels. */
export interface FieldPaper {
  readonly context: CanvasRenderingContext2D;
  readonly x: (p: FieldPoint) => number;
  readonly y: (p: FieldPoint) => number;
  readonly radius: number;
}

export function fieldPaper(context: CanvasRenderingContext2D): FieldPaper {
  const { width, height } = context.canvas;
  const radius = height / 2 - 4;
  const scale = radius / HALF_FIELD_ARCMIN;
  return {
    context,
    radius,
    x: (p) => width / 2 + p.xArcmin * scale,
    y: (p) => height / 2 - p.yArcmin * scale,
  };
}
