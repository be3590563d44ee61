import type { HorizonWindow } from '../../core/plan/index.js';
import { svgDrawing, svg, type SvgNode } from '../svg/svg-node.js';
import type { Rect } from './label-room.js';
import { lightSvg } from './light-svg.js';
import { QUARTERS, quarterSvg } from './quarter-svg.js';
import { setSvg } from './set-svg.js';
import type { SetFound, SkyModel, SkyMoment, SkySettings } from './sky-model.js';
import { dateAndClock, placeText } from './sky-text.js';

/** Everything that one picture of the sky shows. */
export interface SkyScene {
  readonly model: SkyModel;
  readonly settings: SkySettings;
  readonly moment: SkyMoment;
  readonly windows: readonly HorizonWindow[];
  readonly found: SetFound;
  readonly span: { readonly fromMs: number; readonly toMs: number };
  readonly chosen?: string | undefined;
}

/** Where the parts stand in a drawing of that width. */
export interface SkyLayout {
  readonly width: number;
  readonly height: number;
  readonly quarters: readonly Rect[];
  readonly light: Rect;
  readonly set: Rect;
}

const GAP = 12;
const WIDE = 760;
const MEDIUM = 480;
const SET_PX = 190;
const LIGHT_PX = 140;

/** Four quarters side by side, two by two, or one under another; the light and the set below them. */
export function skyLayout(width: number): SkyLayout {
  const across = width >= WIDE ? 4 : width >= MEDIUM ? 2 : 1;
  const each = (width - GAP * (across - 1)) / across;
  const tall = across === 1 ? 200 : Math.min(310, Math.max(230, each * 1.05));
  const quarters = QUARTERS.map((_, i) => ({
    x: (i % across) * (each + GAP),
    y: Math.floor(i / across) * (tall + GAP),
    width: each,
    height: tall,
  }));
  const below = (tall + GAP) * (4 / across) + 4;
  if (across === 1) {
    const light = { x: 0, y: below, width, height: LIGHT_PX };
    const set = {
      x: (width - SET_PX) / 2,
      y: below + LIGHT_PX + GAP,
      width: SET_PX,
      height: SET_PX,
    };
    return { width, height: set.y + set.height + 2, quarters, light, set };
  }
  const light = { x: 0, y: below, width: width - SET_PX - 2 * GAP, height: SET_PX };
  const set = { x: width - SET_PX, y: below, width: SET_PX, height: SET_PX };
  return { width, height: below + SET_PX + 2, quarters, light, set };
}

/** Arcs between those that can be used. */
export function blockedArcs(
  usable: readonly { readonly fromDeg: number; readonly toDeg: number }[],
): { fromDeg: number; toDeg: number }[] {
  if (usable.length === 0) return [];
  const STEP = 0.5;
  const isFree = (deg: number) =>
    usable.some((a) => (deg - a.fromDeg + 360) % 360 <= (a.toDeg - a.fromDeg + 360) % 360);
  const blocked: { fromDeg: number; toDeg: number }[] = [];
  for (let deg = 0; deg < 360; deg += STEP) {
    if (isFree(deg + STEP / 2)) continue;
    const last = blocked.at(-1);
    if (last && last.toDeg === deg) last.toDeg = deg + STEP;
    else blocked.push({ fromDeg: deg, toDeg: deg + STEP });
  }
  return blocked;
}

/** The sky above the DR: four quarters of the horizon, how the light goes, and the set. */
export function skySvg(scene: SkyScene, width: number): SvgNode {
  const layout = skyLayout(width);
  const { model, settings, moment, windows, found } = scene;
  const numbers = new Map(found.set ? found.order.map((body, i) => [body, i + 1] as const) : []);
  const quarterScene = {
    moment,
    lowestDeg: settings.lowestDeg,
    highestDeg: settings.highestDeg,
    blocked: blockedArcs(model.data.horizon),
    numbers,
    hidden: new Set<string>(settings.hidden),
    chosen: scene.chosen,
  };
  return svgDrawing(
    { width, height: layout.height },
    {},
    svg(
      'title',
      {},
      `Sky above ${placeText(moment.dr)} at ${dateAndClock(settings.atMs)}: four quarters of the horizon with the bodies on staves as high as their altitudes; under them the Sun's height against time`,
    ),
    ...QUARTERS.map((q, i) => quarterSvg(q, quarterScene, layout.quarters[i] as Rect)),
    lightSvg({ model, windows, ...scene.span, atMs: settings.atMs }, layout.light),
    found.set ? setSvg(found.set, numbers, layout.set) : null,
  );
}
