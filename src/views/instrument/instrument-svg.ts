import { svgDrawing, svg, type SvgNode } from '../svg/svg-node.js';
import { arcSvg, frameSvg } from './arc-svg.js';
import { drumPose } from './drum-pose.js';
import { drumSvg } from './drum-svg.js';
import { readingText } from './misreading.js';

export interface InstrumentDrawing {
  readonly width: number;
  /** Close to the vernier, with every line of it numbered. */
  readonly isClose: boolean;
  /** The vernier line that counts is marked, and the title tells the reading. */
  readonly isTold: boolean;
}

const NARROW = 560;
const CLOSE = 2.1;

/** Where the three pictures stand in a drawing of that width. */
export function drawingLayout(width: number) {
  const gap = 10;
  const narrow = width < NARROW;
  const frame = narrow ? { width, height: 190 } : { width: Math.round(width * 0.36), height: 412 };
  const right = narrow ? width : width - frame.width - gap;
  const arc = { width: right, height: 122 };
  const drum = { width: right, height: 280 };
  const x = narrow ? 0 : frame.width + gap;
  const top = narrow ? frame.height + gap : 0;
  return { frame, arc, drum, x, top, gap, height: top + arc.height + gap + drum.height };
}

/** The sextant at a reading: frame, arc about the index, drum with its vernier. */
export function instrumentSvg(
  readingDeg: number,
  { width, isClose, isTold }: InstrumentDrawing,
): SvgNode {
  const pose = drumPose(readingDeg);
  const { frame, arc, drum, x, top, gap, height } = drawingLayout(width);
  return svgDrawing(
    { width, height },
    {},
    svg(
      'title',
      {},
      isTold ? `A sextant that shows ${readingText(pose.readingDeg)}` : 'A sextant to be read',
    ),
    svg('g', {}, frameSvg(pose, frame)),
    svg('g', { transform: `translate(${x} ${top})` }, arcSvg(pose, arc)),
    svg(
      'g',
      { transform: `translate(${x} ${top + arc.height + gap})` },
      drumSvg(pose, drum, isClose ? CLOSE : 1, isTold),
    ),
  );
}
