import type { BenchLight } from '../../../views/bench/bench-light.js';
import type { BenchBody } from '../../../views/bench/bench-sky.js';
import type { FieldPoint, Pointing } from '../../../views/bench/optics.js';
import { discPoint, drawBody, type BodyImage } from './draw-body.js';
import { drawSea } from './draw-sea.js';
import { passes, type Shades } from './eye-safety.js';
import { fieldPaper, inField } from './field-scale.js';

export interface FieldInks {
  readonly paper: string;
  readonly sky: string;
  readonly sea: string;
  readonly ink: string;
  readonly body: string;
  /** The lighter of ink and paper: what shines at night. */
  readonly bright: string;
}

/** All that decides what the telescope shows. */
export interface FieldScene {
  readonly body: BenchBody;
  readonly isSun: boolean;
  readonly pointing: Pointing;
  /** The reading less the index error. */
  readonly turnedDeg: number;
  readonly way: 'upright' | 'inverted' | 'artificial';
  readonly light: BenchLight;
  /** Dip of the edge of the sea that is seen, minutes of arc. */
  readonly edgeDipArcmin: number;
  readonly shades: Shades;
  /** How bright the body stands before its sky, 0 to 1, without shades. */
  readonly strength: number;
}

/** The body's images in the field: by the mirrors, and straight ahead. */
export interface FieldSeen {
  readonly reflected: FieldPoint | null;
  readonly direct: FieldPoint | null;
}

/** By which way, and how turned, the body comes into the field: one image by the mirrors, one straight ahead. */
export function imagesOf({ way, turnedDeg }: Pick<FieldScene, 'way' | 'turnedDeg'>): {
  readonly reflected: BodyImage;
  readonly direct: BodyImage;
} {
  // An inverted sextant's index mirror looks down: what it brings up is turned the other way.
  return {
    reflected: { turnedDeg: way === 'inverted' ? -turnedDeg : turnedDeg, isMirrored: false },
    direct: { turnedDeg: 0, isMirrored: way === 'artificial' },
  };
}

/** Where the body's middle stands. */
export function seenIn(scene: FieldScene): FieldSeen {
  const images = imagesOf(scene);
  const at = (image: BodyImage) => discPoint(scene.body, [0, 0], scene.pointing, image);
  return { reflected: at(images.reflected), direct: at(images.direct) };
}

/** The deepest that night darkens the drawing; a choice. */
const NIGHT = 0.86;

/** Draws the field: sea and body straight ahead, and what the mirrors bring. */
export function drawField(
  context: CanvasRenderingContext2D,
  scene: FieldScene,
  inks: FieldInks,
): void {
  const { width, height } = context.canvas;
  const paper = fieldPaper(context);
  context.fillStyle = inks.paper;
  context.fillRect(0, 0, width, height);
  context.save();
  context.beginPath();
  context.arc(width / 2, height / 2, paper.radius, 0, 2 * Math.PI);
  context.clip();
  context.fillStyle = inks.sky;
  context.fillRect(0, 0, width, height);
  drawNight(context, scene.light.day);
  drawImages(context, scene, inks);
  context.restore();
  context.strokeStyle = inks.ink;
  context.lineWidth = 2;
  context.beginPath();
  context.arc(width / 2, height / 2, paper.radius, 0, 2 * Math.PI);
  context.stroke();
}

function drawNight(context: CanvasRenderingContext2D, day: number): void {
  if (day > 0.99) return;
  context.globalAlpha = NIGHT * (1 - day);
  context.fillStyle = '#000';
  context.fillRect(0, 0, context.canvas.width, context.canvas.height);
  context.globalAlpha = 1;
}

function drawImages(context: CanvasRenderingContext2D, scene: FieldScene, inks: FieldInks): void {
  const { body, pointing, way, light, shades, isSun, strength } = scene;
  const paper = fieldPaper(context);
  const images = imagesOf(scene);
  const isDark = light.day < 0.6;
  const seaInks = { sea: inks.sea, ink: isDark ? inks.bright : inks.ink };
  const bodyInk = isDark ? inks.bright : inks.body;
  if (way !== 'artificial') {
    const [turned, shade] =
      way === 'inverted' ? [-scene.turnedDeg, shades.index] : [0, shades.horizon];
    const edge = light.edge * passes(shade, false);
    drawSea(paper, scene.edgeDipArcmin, pointing, turned, edge, seaInks);
  }
  const { reflected, direct } = seenIn(scene);
  if (inField(direct)) {
    const left = strength * passes(shades.horizon, isSun) * (way === 'artificial' ? 0.75 : 1);
    drawBody(paper, body, pointing, images.direct, bodyInk, left);
  }
  if (inField(reflected))
    drawBody(
      paper,
      body,
      pointing,
      images.reflected,
      bodyInk,
      strength * passes(shades.index, isSun),
    );
}
