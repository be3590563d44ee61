import { formatAngle, formatBearing } from '../../core/units/index.js';
import { HALO } from '../chart/halo.js';
import { ACCENT, FAINT, INK } from '../svg/inks.js';
import { px, svg, type SvgNode } from '../svg/svg-node.js';
import { bodyMark, markRadius } from './body-mark.js';
import { around, textPx, type LabelRoom, type Rect } from './label-room.js';
import type { Frame, QuarterScene } from './quarter-svg.js';
import type { SkyBody } from './sky-model.js';

const LINE = 12.5;

/** Degrees into −180 to 180. */
export const wrap = (degrees: number): number => degrees - 360 * Math.floor((degrees + 180) / 360);

interface Foot {
  readonly x: number;
  readonly y: number;
  readonly base: number;
}

/** A body on its staff, with where it goes and its name; in the set also its number and what to set. */
export function bodyNode(
  b: SkyBody,
  { x, y, base }: Foot,
  scene: QuarterScene,
  room: LabelRoom,
  sky: Rect,
  { xOf, yOf }: Pick<Frame, 'xOf' | 'yOf'>,
): SvgNode {
  const number = scene.numbers.get(b.body);
  const isSet = number !== undefined;
  const isChosen = scene.chosen === b.body;
  const isFaint = !b.isInReach || scene.hidden.has(b.body);
  const ink = isChosen ? ACCENT : isFaint ? FAINT : INK;
  const whole = isSet ? [`${number} ${b.body}`, formatAngle(b.presetDeg)] : [b.body];
  const spotsOf = (texts: readonly string[]) =>
    around(
      x,
      y,
      markRadius(b) + (isSet ? 5 : 3),
      Math.max(...texts.map((text, i) => textPx(text, isSet && i === 0))),
      texts.length * LINE,
    );
  const roomy = room.place(spotsOf(whole));
  // Without room for the name the number alone stands: the table under the sky has both.
  const lines = roomy || !isSet ? whole : [String(number)];
  const spot = roomy ?? (isSet ? numberSpot(spotsOf(lines), room, sky) : null);
  const staff = svg('line', {
    x1: px(x),
    x2: px(x),
    y1: px(y),
    y2: px(base),
    stroke: ink,
    'stroke-width': isSet ? 2 : 0.8,
    'stroke-dasharray': isSet ? undefined : '1 3',
  });
  return svg(
    'g',
    { 'data-body': b.body, class: 'ch-sky-body' },
    svg('title', {}, `${b.body}: ${formatBearing(b.azDeg)}, ${formatAngle(b.altDeg)}`),
    b.isInReach ? staff : null,
    isFaint ? null : way(b, x, y, xOf, yOf, sky),
    bodyMark(b, x, y, { ink, isSet }),
    ...(spot
      ? lines.map((line, i) =>
          svg(
            'text',
            {
              ...HALO,
              x: px(spot.x),
              y: px(spot.y + LINE * (i + 0.8)),
              fill: ink,
              'font-size': isSet ? 11.5 : 10.5,
              'font-weight': isSet && i === 0 ? 650 : undefined,
            },
            line,
          ),
        )
      : []),
  );
}

const numberSpot = (spots: readonly Rect[], room: LabelRoom, sky: Rect): Rect =>
  room.place(spots) ?? pushedInto(spots[0] as Rect, sky);

function pushedInto(r: Rect, sky: Rect): Rect {
  const x = Math.min(Math.max(r.x, sky.x), sky.x + sky.width - r.width);
  const y = Math.min(Math.max(r.y, sky.y), sky.y + sky.height - r.height);
  return { ...r, x, y };
}

/** Where the body goes in the next minutes, as a hair. */
function way(
  b: SkyBody,
  x: number,
  y: number,
  xOf: (azDeg: number) => number,
  yOf: (altDeg: number) => number,
  sky: Rect,
): SvgNode | null {
  const [toX, toY] = [x + (xOf(b.azDeg + wrap(b.ahead.azDeg - b.azDeg)) - x), yOf(b.ahead.altDeg)];
  const isInside = toX >= sky.x && toX <= sky.x + sky.width && toY <= sky.y + sky.height;
  // Round the back of the quarter a body jumps to the other edge: nothing is drawn then.
  if (!isInside || Math.abs(toX - x) > sky.width / 3) return null;
  return svg('line', {
    x1: px(x),
    y1: px(y),
    x2: px(toX),
    y2: px(toY),
    stroke: FAINT,
    'stroke-width': 1.4,
  });
}
