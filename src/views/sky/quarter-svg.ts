import { formatBearing } from '../../core/units/index.js';
import { FAINT, INK, LAND, PAPER, REGION, RULE, SHORE } from '../svg/inks.js';
import { pathData, px, svg, type SvgNode } from '../svg/svg-node.js';
import { markRadius } from './body-mark.js';
import { LabelRoom, type Rect } from './label-room.js';
import type { SkyBody, SkyMoment } from './sky-model.js';
import { bodyNode, wrap } from './staff-svg.js';

/** What one look round the horizon shows: a quarter of it, as it lies before somebody who faces that way. */
export interface Quarter {
  readonly name: 'north' | 'east' | 'south' | 'west';
  readonly facingDeg: number;
}
export const QUARTERS: readonly Quarter[] = [
  { name: 'north', facingDeg: 0 },
  { name: 'east', facingDeg: 90 },
  { name: 'south', facingDeg: 180 },
  { name: 'west', facingDeg: 270 },
];

export interface QuarterScene {
  readonly moment: SkyMoment;
  readonly lowestDeg: number;
  readonly highestDeg: number;
  /** Arcs without a horizon, true bearings clockwise. */
  readonly blocked: readonly { readonly fromDeg: number; readonly toDeg: number }[];
  /** Number in the order of taking, by body. */
  readonly numbers: ReadonlyMap<string, number>;
  readonly hidden: ReadonlySet<string>;
  /** The body a reader has pointed at. */
  readonly chosen: string | undefined;
}

const HEAD = 18;
const SEA = 12;
const FOOT = 18;

/** One quarter of the horizon: staves from the sea up to each body, as high as its altitude. */
export function quarterSvg(quarter: Quarter, scene: QuarterScene, box: Rect): SvgNode {
  const top = box.y + HEAD;
  const base = box.y + box.height - FOOT - SEA;
  const xOf = (azDeg: number) => box.x + ((wrap(azDeg - quarter.facingDeg) + 45) / 90) * box.width;
  const yOf = (altDeg: number) => base - (altDeg / 90) * (base - top);
  const sky: Rect = { x: box.x, y: top - 4, width: box.width, height: base - top + 4 };
  const room = new LabelRoom(sky);
  for (const altDeg of [scene.lowestDeg, scene.highestDeg])
    room.take({ x: box.x + box.width - 28, y: yOf(altDeg) - 14, width: 28, height: 14 });
  const here = scene.moment.bodies.filter((b) => {
    const off = wrap(b.azDeg - quarter.facingDeg);
    return off >= -45 && off < 45;
  });
  const staffOf = (b: SkyBody): Rect => ({
    x: xOf(b.azDeg) - 1,
    y: yOf(b.altDeg),
    width: 2,
    height: base - yOf(b.altDeg),
  });
  for (const b of here) {
    const isSet = scene.numbers.has(b.body);
    // About the mark of a body of the set lies a ring.
    const r = markRadius(b) + (isSet ? 5 : 1);
    room.take({ x: xOf(b.azDeg) - r, y: yOf(b.altDeg) - r, width: 2 * r, height: 2 * r });
    if (isSet) room.take(staffOf(b));
  }
  const rank = (b: SkyBody) =>
    scene.numbers.get(b.body) ?? (b.isInReach ? 50 : 90) + (b.magnitude ?? 5);
  const drawn = [...here].sort((a, b) => rank(a) - rank(b));
  const ofSet = drawn.filter((b) => scene.numbers.has(b.body)).length;
  const bodies = drawn.map((b, i) => {
    // A name of the set may stand over a dotted staff, rather than be left out; the other names keep clear of it.
    if (i === ofSet)
      for (const other of drawn.slice(i)) if (other.isInReach) room.take(staffOf(other));
    const at = { x: xOf(b.azDeg), y: yOf(b.altDeg), base };
    return bodyNode(b, at, scene, room, sky, { xOf, yOf });
  });
  return svg('g', {}, ground(quarter, scene, box, { base, top, xOf, yOf }), ...bodies.reverse());
}

export interface Frame {
  readonly base: number;
  readonly top: number;
  readonly xOf: (azDeg: number) => number;
  readonly yOf: (altDeg: number) => number;
}

/** The sea, its bearings, and the altitudes in reach. */
function ground(quarter: Quarter, scene: QuarterScene, box: Rect, f: Frame): SvgNode {
  const { base, top, yOf } = f;
  const right = box.x + box.width;
  const level = (altDeg: number) =>
    svg('line', {
      x1: px(box.x),
      x2: px(right),
      y1: px(yOf(altDeg)),
      y2: px(yOf(altDeg)),
      stroke: FAINT,
      'stroke-width': 0.8,
      'stroke-dasharray': '2 4',
    });
  const limit = (altDeg: number) =>
    svg(
      'text',
      {
        x: px(right - 3),
        y: px(yOf(altDeg) - 3),
        'text-anchor': 'end',
        fill: FAINT,
        'font-size': 10,
      },
      `${Math.round(altDeg)}°`,
    );
  const isLost = scene.moment.light === 'dark';
  return svg(
    'g',
    {},
    svg(
      'text',
      { x: px(box.x), y: px(box.y + 11), fill: INK, 'font-size': 11.5, 'font-weight': 600 },
      `Facing ${quarter.name}`,
    ),
    svg('rect', {
      x: px(box.x),
      y: px(top),
      width: px(box.width),
      height: px(base - top),
      fill: PAPER,
      stroke: RULE,
    }),
    svg('rect', {
      x: px(box.x),
      y: px(yOf(scene.highestDeg)),
      width: px(box.width),
      height: px(yOf(scene.lowestDeg) - yOf(scene.highestDeg)),
      fill: REGION,
      'fill-opacity': 0.4,
    }),
    level(scene.lowestDeg),
    level(scene.highestDeg),
    limit(scene.lowestDeg),
    limit(scene.highestDeg),
    svg('rect', { x: px(box.x), y: px(base), width: px(box.width), height: SEA, fill: REGION }),
    ...scene.blocked.flatMap((arc) => shore(arc, quarter, box, base)),
    ...sunBelow(quarter, scene.moment, f),
    svg('line', {
      x1: px(box.x),
      x2: px(right),
      y1: px(base),
      y2: px(base),
      stroke: INK,
      'stroke-width': isLost ? 1 : 2,
      'stroke-dasharray': isLost ? '3 5' : undefined,
    }),
    ...bearings(quarter, box, base),
  );
}

function bearings({ facingDeg }: Quarter, box: Rect, base: number): SvgNode[] {
  return [-45, -30, -15, 0, 15, 30, 45].flatMap((off) => {
    const x = box.x + ((off + 45) / 90) * box.width;
    const tick = svg('line', {
      x1: px(x),
      x2: px(x),
      y1: px(base),
      y2: px(base + (off % 45 === 0 ? 7 : 4)),
      stroke: INK,
      'stroke-width': 1,
    });
    if (Math.abs(off) === 45 || Math.abs(off) === 15) return [tick];
    const text = svg(
      'text',
      { x: px(x), y: px(base + SEA + 12), 'text-anchor': 'middle', fill: INK, 'font-size': 10.5 },
      formatBearing(facingDeg + off),
    );
    return [tick, text];
  });
}

/** Where no horizon can be used: land, hatched so that it shows without colour. */
function shore(
  arc: { readonly fromDeg: number; readonly toDeg: number },
  { facingDeg }: Quarter,
  box: Rect,
  base: number,
): SvgNode[] {
  const width = (arc.toDeg - arc.fromDeg + 360) % 360 || 360;
  const start = wrap(arc.fromDeg - facingDeg);
  return [start - 360, start, start + 360].flatMap((from) => {
    const [a, b] = [Math.max(-45, from), Math.min(45, from + width)];
    if (!(b > a)) return [];
    const [x1, x2] = [a, b].map((off) => box.x + ((off + 45) / 90) * box.width) as [number, number];
    const strokes: SvgNode[] = [];
    for (let x = x1; x < x2; x += 6)
      strokes.push(
        svg('line', {
          x1: px(x),
          y1: px(base + SEA),
          x2: px(Math.min(x + 6, x2)),
          y2: px(base - 5),
          stroke: SHORE,
          'stroke-width': 1.2,
        }),
      );
    return [
      svg('rect', { x: px(x1), y: px(base - 5), width: px(x2 - x1), height: SEA + 5, fill: LAND }),
      ...strokes,
    ];
  });
}

/** Under the horizon, where the Sun is: there the horizon is brightest. */
function sunBelow({ facingDeg }: Quarter, moment: SkyMoment, f: Frame): SvgNode[] {
  const off = wrap(moment.sunAzDeg - facingDeg);
  if (moment.sunAltDeg > 0 || moment.sunAltDeg < -18 || off < -45 || off >= 45) return [];
  const x = f.xOf(moment.sunAzDeg);
  const half = pathData(
    [
      [x - 5, f.base + 2],
      [x + 5, f.base + 2],
      [x, f.base + 9],
    ],
    true,
  );
  return [
    svg(
      'path',
      { d: half, fill: INK },
      svg('title', {}, `Sun ${Math.abs(moment.sunAltDeg).toFixed(1)}° below`),
    ),
  ];
}
