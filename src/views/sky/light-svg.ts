import type { HorizonWindow } from '../../core/plan/index.js';
import { HALO } from '../chart/halo.js';
import { ACCENT, FAINT, INK, PAPER, REGION, RULE } from '../svg/inks.js';
import { pathData, px, svg, type SvgNode } from '../svg/svg-node.js';
import { LabelRoom, textPx, type Rect } from './label-room.js';
import type { SkyModel } from './sky-model.js';
import { clock } from './sky-text.js';

/** How the light goes: the Sun's height against time, from `fromMs` to `toMs`. */
export interface LightScene {
  readonly model: SkyModel;
  readonly windows: readonly HorizonWindow[];
  readonly fromMs: number;
  readonly toMs: number;
  readonly atMs: number;
}

const HIGH_DEG = 6;
const LOW_DEG = -18;
const STEPS = 90;
const HALF_HOUR_MS = 1_800_000;
const HEAD = 16;
const FOOT = 16;
const LEAST_SPAN_MS = 3 * 3_600_000;

/** The stretch of the day that a strip shows: three hours about the moment, more where the window is long. */
export function lightSpan(
  atMs: number,
  windows: readonly HorizonWindow[],
  { firstMs, lastMs }: Pick<SkyModel, 'firstMs' | 'lastMs'>,
): { fromMs: number; toMs: number } {
  const around = windows.find((w) => w.starts.epochMs <= atMs && atMs <= w.ends.epochMs);
  const length = Math.min(
    lastMs - firstMs,
    Math.max(LEAST_SPAN_MS, around ? around.duration.seconds * 1500 : 0),
  );
  const middle = around ? (around.starts.epochMs + around.ends.epochMs) / 2 : atMs;
  const fromMs = Math.min(Math.max(firstMs, middle - length / 2), lastMs - length);
  return { fromMs, toMs: fromMs + length };
}

/** A strip of time with the Sun's way through the bands of twilight. */
export function lightSvg(scene: LightScene, box: Rect): SvgNode {
  const { model, windows, fromMs, toMs, atMs } = scene;
  const top = box.y + HEAD;
  const base = box.y + box.height - FOOT;
  const right = box.x + box.width;
  const xOf = (ms: number) => box.x + ((ms - fromMs) / (toMs - fromMs)) * box.width;
  const yOf = (altDeg: number) =>
    top +
    ((HIGH_DEG - Math.min(HIGH_DEG, Math.max(LOW_DEG, altDeg))) / (HIGH_DEG - LOW_DEG)) *
      (base - top);
  const path = sunPath(scene, xOf, yOf);
  const room = new LabelRoom({ x: box.x, y: box.y, width: box.width, height: box.height });
  const band = (fromDeg: number, toDeg: number, fill: string, opacity: number) =>
    svg('rect', {
      x: px(box.x),
      y: px(yOf(fromDeg)),
      width: px(box.width),
      height: px(yOf(toDeg) - yOf(fromDeg)),
      fill,
      'fill-opacity': opacity,
    });
  const level = (altDeg: number) =>
    svg('line', {
      x1: px(box.x),
      x2: px(right),
      y1: px(yOf(altDeg)),
      y2: px(yOf(altDeg)),
      stroke: altDeg === 0 ? INK : FAINT,
      'stroke-width': altDeg === 0 ? 1.4 : 0.8,
      'stroke-dasharray': altDeg === 0 ? undefined : '2 4',
    });
  const marker = xOf(atMs);
  const sunDeg = model.sunAt(atMs).altDeg;
  const nowText = clock(atMs);
  const now = room.place([
    textRect(marker - textPx(nowText) / 2, box.y, nowText),
    textRect(box.x, box.y, nowText),
    textRect(right - textPx(nowText), box.y, nowText),
  ]);
  return svg(
    'g',
    {},
    svg('rect', {
      x: px(box.x),
      y: px(top),
      width: px(box.width),
      height: px(base - top),
      fill: PAPER,
      stroke: RULE,
    }),
    band(-6, -12, REGION, 1),
    ...[0, -6, -12].map(level),
    ...halfHours(fromMs, toMs, box.width).map((ms) =>
      svg(
        'text',
        { x: px(xOf(ms)), y: px(base + 12), 'text-anchor': 'middle', fill: FAINT, 'font-size': 10 },
        clock(ms),
      ),
    ),
    ...bandNames(box, yOf),
    svg('path', { d: path, fill: 'none', stroke: INK, 'stroke-width': 1.8 }),
    ...windows.flatMap((w) => edges(w, scene, xOf, yOf, room, box)),
    svg('line', {
      x1: px(marker),
      x2: px(marker),
      y1: px(top - 1),
      y2: px(base),
      stroke: ACCENT,
      'stroke-width': 2,
    }),
    isDrawn(sunDeg)
      ? svg('circle', {
          cx: px(marker),
          cy: px(yOf(sunDeg)),
          r: 5,
          fill: PAPER,
          stroke: ACCENT,
          'stroke-width': 2,
        })
      : null,
    now
      ? svg(
          'text',
          { x: px(now.x), y: px(box.y + 11), fill: ACCENT, 'font-size': 11.5, 'font-weight': 650 },
          nowText,
        )
      : null,
  );
}

const isDrawn = (altDeg: number): boolean => altDeg <= HIGH_DEG && altDeg >= LOW_DEG;

/** The Sun's line where it is inside the strip; it breaks where the Sun is higher or deeper. */
function sunPath(
  { model, fromMs, toMs }: LightScene,
  xOf: (ms: number) => number,
  yOf: (altDeg: number) => number,
): string {
  const runs: (readonly [number, number])[][] = [[]];
  for (let i = 0; i <= STEPS; i++) {
    const ms = fromMs + ((toMs - fromMs) * i) / STEPS;
    const { altDeg } = model.sunAt(ms);
    if (isDrawn(altDeg)) runs.at(-1)?.push([xOf(ms), yOf(altDeg)]);
    else if (runs.at(-1)?.length) runs.push([]);
  }
  return runs.map((run) => pathData(run)).join('');
}

const textRect = (x: number, y: number, text: string): Rect => ({
  x,
  y,
  width: textPx(text),
  height: 13,
});

/** Whole half hours, or hours where they would stand too close. */
function halfHours(fromMs: number, toMs: number, width: number): number[] {
  const fits = Math.max(1, Math.floor((width - 40) / 44));
  let step = HALF_HOUR_MS;
  while ((toMs - fromMs) / step > fits) step *= 2;
  const first = Math.ceil((fromMs + (toMs - fromMs) * 0.03) / step) * step;
  const times: number[] = [];
  for (let ms = first; ms <= toMs - (toMs - fromMs) * 0.03; ms += step) times.push(ms);
  return times;
}

const BANDS: readonly (readonly [middleDeg: number, text: string, short: string])[] = [
  [3, 'Sun up', 'Sun up'],
  [-3, 'horizon sharp, few stars', 'few stars'],
  [-9, 'stars and horizon', 'both'],
  [-15, 'horizon lost', 'lost'],
];
const WIDE_PX = 420;

/** What the light allows, at the end where the line of the Sun is not. */
function bandNames(box: Rect, yOf: (altDeg: number) => number): SvgNode[] {
  return BANDS.map(([middle, text, short]) =>
    svg(
      'text',
      { ...HALO, x: px(box.x + 5), y: px(yOf(middle) + 4), fill: FAINT, 'font-size': 10.5 },
      box.width > WIDE_PX ? text : short,
    ),
  );
}

/** Where the window begins and ends, on the line and in figures. */
function edges(
  { starts, ends }: HorizonWindow,
  { fromMs, toMs, model }: LightScene,
  xOf: (ms: number) => number,
  yOf: (altDeg: number) => number,
  room: LabelRoom,
  box: Rect,
): SvgNode[] {
  return [starts.epochMs, ends.epochMs].flatMap((ms, i) => {
    if (ms < fromMs || ms > toMs) return [];
    const [x, y] = [xOf(ms), yOf(model.sunAt(ms).altDeg)];
    const text = clock(ms);
    const spot = room.place([
      textRect(i === 0 ? x - textPx(text) - 3 : x + 3, box.y, text),
      textRect(x - textPx(text) / 2, box.y, text),
      textRect(x + (i === 0 ? -textPx(text) - 12 : 12), box.y, text),
    ]);
    return [
      svg('line', {
        x1: px(x),
        x2: px(x),
        y1: px(box.y + HEAD),
        y2: px(y),
        stroke: INK,
        'stroke-width': 1,
      }),
      svg('circle', { cx: px(x), cy: px(y), r: 3, fill: INK }),
      spot
        ? svg('text', { x: px(spot.x), y: px(box.y + 11), fill: INK, 'font-size': 11 }, text)
        : null,
    ].filter((node) => node !== null);
  });
}
