import { formatBearing, formatLatitude } from '../../core/units/index.js';
import { svg, px, type SvgNode } from '../svg/svg-node.js';
import { FAINT, INK } from '../svg/inks.js';
import { chartSvg } from './chart-svg.js';
import type { FixRow } from './chart-text.js';
import { clipLine, lengthOf, pointAlong } from './clip.js';
import { linePieces } from './line-geometry.js';
import { latitudeMinuteM, longitudeMinuteM, meridionalParts } from './mercator.js';
import { DEFAULT_CHOICES, type ChartScene } from './scene.js';
import {
  project,
  windowAround,
  type Box,
  type ChartWindow,
  type Place,
  type Point,
} from './window.js';

export type Paper = 'A4' | 'Letter';

/** Sheet sizes in millimetres: ISO 216 (2007) A4; ANSI/ASME Y14.1 size A. */
const PAPERS: Readonly<Record<Paper, readonly [width: number, height: number]>> = {
  A4: [210, 297],
  Letter: [215.9, 279.4],
};
/** Drawing units to a millimetre: the drawing's lettering, 12.5 units, comes out 3.1 mm high. */
const UNITS = 4;
const MARGIN_MM = 12;
const SCALES = [
  25e3, 50e3, 75e3, 100e3, 150e3, 200e3, 250e3, 300e3, 400e3, 500e3, 750e3, 1e6, 1.5e6, 2e6, 3e6,
  5e6, 7.5e6, 10e6, 15e6, 20e6, 30e6,
];
export const CHECK_BAR_MM = 100;

export interface Sheet {
  readonly svg: SvgNode;
  /** Scale at the middle latitude, the denominator. */
  readonly scale: number;
  readonly paper: Paper;
}

export interface SheetOptions {
  readonly paper: Paper;
  /** Graticule, rose and scales only, to plot on by hand. */
  readonly blank?: boolean;
  readonly title: string;
  readonly summary: string;
  readonly rows: readonly FixRow[];
}

/** Units of the drawing for a minute of longitude at a natural scale. */
const unitsPerMinute = (latDeg: number, scale: number) =>
  ((longitudeMinuteM(latDeg) * 1000) / scale) * UNITS;

/** The largest usual scale at which all places fit, and the window at exactly that scale. */
function fitted(frame: Box, places: readonly Place[]): { w: ChartWindow; scale: number } {
  const around = windowAround(frame, places, 1.4);
  const lats = places.map((p) => p.latDeg);
  const latDeg = lats.length ? (Math.min(...lats) + Math.max(...lats)) / 2 : 0;
  const scale =
    SCALES.find((s) => unitsPerMinute(latDeg, s) <= around.perMinute) ?? (SCALES.at(-1) as number);
  const w = { ...around, perMinute: unitsPerMinute(latDeg, scale) };
  return { w: { ...w, parts: meridionalParts(latDeg) }, scale };
}

/** A bar of 100 mm with ten parts: what it measures on paper tells whether the printer kept the size. */
function checkBar(x: number, y: number): SvgNode {
  const mm = UNITS;
  const parts = Array.from({ length: CHECK_BAR_MM / 10 }, (_, i) =>
    svg('rect', {
      x: px(x + i * 10 * mm),
      y,
      width: 10 * mm,
      height: 2 * mm,
      fill: i % 2 ? 'none' : INK,
      stroke: INK,
      'stroke-width': 0.8,
    }),
  );
  return svg(
    'g',
    { class: 'ch-check-bar', 'data-length-mm': CHECK_BAR_MM },
    ...parts,
    svg(
      'text',
      { x, y: y + 5.5 * mm, fill: INK, 'font-size': 11 },
      `Check: this bar measures ${CHECK_BAR_MM} mm when the sheet is printed at its true size`,
    ),
  );
}

/** Rose of true directions: every ten degrees, lettered every thirty. */
function rose(x: number, y: number, radius: number): SvgNode {
  const marks = Array.from({ length: 72 }, (_, i) => {
    const deg = i * 5;
    const a = (deg * Math.PI) / 180;
    const inner = radius - (deg % 30 === 0 ? 12 : deg % 10 === 0 ? 8 : 4);
    const at = (r: number) => `${px(x + r * Math.sin(a))},${px(y - r * Math.cos(a))}`;
    return svg('path', { d: `M${at(inner)}L${at(radius)}`, stroke: FAINT, 'stroke-width': 0.8 });
  });
  const letters = Array.from({ length: 12 }, (_, i) => {
    const a = (i * 30 * Math.PI) / 180;
    const r = radius - 22;
    const at = { x: px(x + r * Math.sin(a)), y: px(y - r * Math.cos(a) + 3.5) };
    const text = { ...at, 'text-anchor': 'middle', fill: FAINT, 'font-size': 10 };
    return svg('text', text, formatBearing(i * 30).replace('°', ''));
  });
  return svg(
    'g',
    { class: 'ch-rose' },
    svg('circle', {
      cx: px(x),
      cy: px(y),
      r: radius,
      fill: 'none',
      stroke: FAINT,
      'stroke-width': 0.8,
    }),
    ...marks,
    ...letters,
    svg('path', {
      d: `M${px(x)},${px(y - radius + 34)}L${px(x)},${px(y + radius - 34)}`,
      stroke: FAINT,
      'stroke-width': 0.8,
    }),
  );
}

const ROSE_RADIUS = 92;

/** Points along a line close enough together that a rose cannot slip between. */
function everyFewUnits(line: readonly Point[]): Point[] {
  const steps = Math.ceil(lengthOf(line) / 20);
  return Array.from({ length: steps + 1 }, (_, i) => pointAlong(line, i * 20).at);
}

/** The corner of the frame that is farthest from everything plotted: where the rose is in nobody's way. */
function emptiestCorner(frame: Box, taken: readonly Point[]): Point {
  const [near, far] = [ROSE_RADIUS + 16, -ROSE_RADIUS - 16];
  const xs = [frame.left + frame.width + far, frame.left + near];
  const ys = [frame.top + frame.height + far, frame.top + near];
  const corners = xs.flatMap((x) => ys.map((y): Point => [x, y]));
  const room = ([x, y]: Point) => Math.min(...taken.map(([a, b]) => Math.hypot(a - x, b - y)));
  return corners.reduce((best, corner) => (room(corner) > room(best) ? corner : best));
}

function sightRows(rows: readonly FixRow[], x: number, y: number, right: number): SvgNode[] {
  const columns = [0, 0.3, 0.46, 0.6, 0.8, 1].map((f) => x + f * (right - x));
  const line = (cells: readonly string[], top: number, fill: string) =>
    cells.map((text, i) =>
      svg(
        'text',
        {
          x: px(columns[i] ?? x),
          y: px(top),
          'text-anchor': i === 0 ? 'start' : 'end',
          fill,
          'font-size': 11,
        },
        text,
      ),
    );
  return [
    ...line(['Body', 'UTC', 'Altitude Ho', 'Azimuth', 'Intercept', 'Residual'], y, FAINT),
    ...rows.flatMap((r, i) =>
      line([r.body, r.time, r.altitude, r.azimuth, r.intercept, r.residual], y + (i + 1) * 16, INK),
    ),
  ];
}

/**
 * A plotting sheet to true scale on A4 or Letter paper, upright: Mercator graticule with its border as distance
 * scale, rose, position lines, the sights, and a bar to check the printed size with.
 */
export function plottingSheet(scene: ChartScene, options: SheetOptions): Sheet {
  const [widthMm, heightMm] = PAPERS[options.paper];
  const [width, height] = [widthMm * UNITS, heightMm * UNITS];
  const margin = MARGIN_MM * UNITS;
  const rows = options.blank ? [] : options.rows.slice(0, 12);
  const foot = 100 + (rows.length ? 22 + rows.length * 16 : 0);
  const frame = {
    left: margin + 76,
    top: margin + 52,
    width: width - 2 * margin - 84,
    height: height - 2 * margin - 84 - foot,
  };
  const places = [
    ...(scene.fix ? [scene.fix.place] : []),
    ...(scene.region?.isBounded ? scene.region.outline : []),
    ...(scene.dr ? [scene.dr.place] : []),
  ];
  const { w, scale } = fitted(frame, places);
  const shown = options.blank
    ? { title: scene.title, lines: [], ...(scene.dr ? { dr: scene.dr } : {}) }
    : scene;
  const lines = shown.lines.flatMap((line) =>
    linePieces(line, w).flatMap((piece) => clipLine(piece, frame).flatMap(everyFewUnits)),
  );
  const corner = emptiestCorner(frame, [...places.map((place) => project(w, place)), ...lines]);
  const drawing = chartSvg(
    shown,
    w,
    { width, height },
    {
      choices: { ...DEFAULT_CHOICES, coast: false },
      keepClear: { at: corner, radius: ROSE_RADIUS },
    },
  );
  const below = frame.top + frame.height + 46;
  const latDeg = places[0]?.latDeg ?? 0;
  const mileMm = (latitudeMinuteM(latDeg) * 1000) / scale;
  const scaleText = `Mercator, WGS 84 · scale 1 : ${scale.toLocaleString('en').replaceAll(',', ' ')} in ${formatLatitude(latDeg, 0)} · 1′ of latitude is ${mileMm.toFixed(1)} mm · miles are measured on the border at the side`;
  return {
    scale,
    paper: options.paper,
    svg: {
      ...drawing,
      attributes: {
        ...drawing.attributes,
        width: `${widthMm}mm`,
        height: `${heightMm}mm`,
        style: 'font-variant-numeric:tabular-nums',
      },
      children: [
        ...drawing.children,
        rose(...corner, ROSE_RADIUS),
        svg(
          'text',
          { x: margin, y: margin + 14, fill: INK, 'font-size': 17, 'font-weight': 650 },
          options.blank ? 'Plotting sheet' : options.title,
        ),
        svg(
          'text',
          { x: margin, y: margin + 34, fill: INK, 'font-size': 11.5 },
          options.blank ? '' : options.summary,
        ),
        svg('text', { x: margin, y: px(below), fill: FAINT, 'font-size': 11 }, scaleText),
        checkBar(margin, below + 14),
        ...sightRows(rows, margin, below + 76, width - margin).slice(rows.length ? 0 : 6),
      ],
    },
  };
}
