import type { PlotlyFigure } from '../chart/chart-figure.js';
import { FAINT, hue, INK, PAPER, REGION, RULE } from './inks.js';
import { stillAxis, type AxisLayout, type StillAxis } from './still-axis.js';
import { svgDrawing, px, svg, type SvgNode } from './svg-node.js';

interface ErrorBars {
  readonly array?: readonly number[];
  readonly arrayminus?: readonly number[];
}

interface Trace {
  readonly name?: string;
  readonly mode?: string;
  readonly x: readonly unknown[];
  readonly y: readonly unknown[];
  readonly marker?: { readonly symbol?: string | readonly string[] };
  readonly line?: { readonly dash?: string };
  readonly error_x?: ErrorBars;
  readonly error_y?: ErrorBars;
}

interface Layout {
  readonly height?: number;
  readonly title?: { readonly text?: string };
  readonly xaxis?: AxisLayout;
  readonly yaxis?: AxisLayout;
  readonly showlegend?: boolean;
  readonly shapes?: readonly { type: string; x0: unknown; y0: unknown; y1: unknown }[];
  readonly annotations?: readonly { text: string; xref?: string; x: unknown }[];
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

const LETTER_PX = 6.6;
const SIZE = 4.5;
const ROW_PX = 20;

const text = (x: number, y: number, said: string, anchor = 'middle', more: object = {}) =>
  svg(
    'text',
    { x: px(x), y: px(y), 'text-anchor': anchor, fill: INK, 'font-size': 12, ...more },
    said,
  );
const line = (x1: number, y1: number, x2: number, y2: number, stroke: string, more: object = {}) =>
  svg('line', { x1: px(x1), y1: px(y1), x2: px(x2), y2: px(y2), stroke, ...more });

/** The value with its error bar, so that the axis holds both. */
const withErrors = (values: readonly unknown[], error: ErrorBars | undefined): unknown[] =>
  values.flatMap((v, i) => {
    const up = error?.array?.[i] ?? 0;
    return typeof v === 'number' ? [v, v + up, v - (error?.arrayminus?.[i] ?? up)] : [v];
  });

/**
 * One of our own figures as a still drawing, for a page without plotly: points with their error bars, lines, strips, a legend.
 * Only what our figures use is understood.
 */
export function stillPlot(figure: PlotlyFigure, width: number): SvgNode {
  const layout = figure.layout as Layout;
  const traces = figure.data as unknown as Trace[];
  const height = layout.height ?? 300;
  const across = (axis: 'x' | 'y') =>
    traces
      .flatMap((t) => withErrors(t[axis], axis === 'x' ? t.error_x : t.error_y))
      .filter((v) => v !== null);
  const levels = [...across('y'), ...rects(layout).flatMap(({ y0, y1 }) => [y0, y1])];
  const y = stillAxis(layout.yaxis ?? {}, levels, 6);
  const widest = Math.max(0, ...y.ticks.map(({ label }) => label.length));
  const left = 14 + LETTER_PX * widest + (y.title ? 20 : 0);
  const hasLegend = layout.showlegend ?? traces.length > 1;
  const entries = hasLegend ? entriesOf(traces, width - left - 12) : [];
  const title = layout.title?.text;
  const top = 10 + (title ? 22 : 0) + (hasLegend ? ROW_PX * ((entries.at(-1)?.row ?? 0) + 1) : 0);
  const box: Box = { left, top, width: width - left - 12, height: height - top - 56 };
  const x = stillAxis(layout.xaxis ?? {}, across('x'), Math.max(3, Math.floor(box.width / 80)));
  const xAt = (v: unknown) => place(x.at(v), box.left, box.width);
  const yAt = (v: unknown) => place(y.at(v), box.top + box.height, -box.height);
  return svgDrawing(
    { width, height },
    {},
    title ? text(box.left, 18, title, 'start', { 'font-size': 14 }) : null,
    ...strips(layout, box, y),
    ...grid(box, x, y),
    ...marks(layout, box, xAt),
    ...traces.flatMap((trace, i) => drawn(trace, hue(i), xAt, yAt)),
    ...legend(entries, box),
  );
}

const place = (part: number | undefined, from: number, span: number) =>
  part === undefined ? undefined : from + part * span;

function grid({ left, top, width, height }: Box, x: StillAxis, y: StillAxis): SvgNode[] {
  const [right, bottom] = [left + width, top + height];
  const middle = top + height / 2;
  return [
    ...y.ticks.flatMap(({ at, label }) => {
      const level = bottom - at * height;
      const isZero = /^0[.0]*[′ σ]*$/.test(label);
      return [
        line(left, level, right, level, isZero ? FAINT : RULE),
        text(left - 6, level + 4, label, 'end'),
      ];
    }),
    ...x.ticks.flatMap(({ at, label }) => {
      const across = left + at * width;
      return [
        line(across, top, across, bottom, RULE),
        ...label.split('\n').map((part, i) => text(across, bottom + 16 + 14 * i, part)),
      ];
    }),
    text(left + width / 2, bottom + 48, x.title),
    ...(y.title
      ? [text(14, middle, y.title, 'middle', { transform: `rotate(-90 14 ${px(middle)})` })]
      : []),
  ];
}

const rects = ({ shapes = [] }: Layout) => shapes.filter(({ type }) => type === 'rect');

/** Strips of one and two standard deviations, as far as the axis goes. */
function strips({ shapes = [] }: Layout, { left, top, width, height }: Box, y: StillAxis) {
  return rects({ shapes }).map(({ y0, y1 }) => {
    const [low, high] = [y.at(y0) ?? 0, y.at(y1) ?? 1];
    return svg('rect', {
      x: px(left),
      width: px(width),
      y: px(top + (1 - high) * height),
      height: px((high - low) * height),
      fill: REGION,
    });
  });
}

/** A moment ruled from top to bottom, and words at the foot of the plot. */
function marks(
  { shapes = [], annotations = [] }: Layout,
  { left, top, width, height }: Box,
  xAt: (v: unknown) => number | undefined,
): SvgNode[] {
  const bottom = top + height;
  return [
    ...shapes.flatMap(({ type, x0 }) => {
      const at = type === 'line' ? xAt(x0) : undefined;
      return at === undefined
        ? []
        : [line(at, top, at, bottom, FAINT, { 'stroke-dasharray': '2 3' })];
    }),
    ...annotations.map(({ text: words, xref, x }) => {
      // Nobody zooms a drawing.
      const said = words.replace(', or zoom out', '');
      const at = (xref === 'paper' ? left : (xAt(x) ?? left)) + 4;
      const isFree = at + LETTER_PX * said.length < left + width;
      return isFree
        ? text(at, bottom - 5, said, 'start')
        : text(left + width, bottom - 5, said, 'end');
    }),
  ];
}

function drawn(
  { mode = '', x, y, marker, line: stroke, error_x, error_y }: Trace,
  colour: string,
  xAt: (v: unknown) => number | undefined,
  yAt: (v: unknown) => number | undefined,
): SvgNode[] {
  if (mode === 'lines') {
    let d = '';
    let isOpen = false;
    x.forEach((v, i) => {
      const [a, b] = [xAt(v), yAt(y[i])];
      const isPoint = a !== undefined && b !== undefined;
      if (isPoint) d += `${isOpen ? 'L' : 'M'}${px(a)},${px(b)}`;
      isOpen = isPoint;
    });
    const dashed = stroke?.dash === 'dash' ? '7 5' : undefined;
    return [
      svg('path', {
        d,
        fill: 'none',
        stroke: colour,
        'stroke-width': 1.5,
        'stroke-dasharray': dashed,
      }),
    ];
  }
  return x.flatMap((v, i) => {
    const [a, b] = [xAt(v), yAt(y[i])];
    if (a === undefined || b === undefined) return [];
    const symbol = typeof marker?.symbol === 'object' ? marker.symbol[i] : marker?.symbol;
    const bar = (value: unknown, error: ErrorBars | undefined, at: typeof xAt) => {
      const up = error?.array?.[i];
      if (up === undefined || typeof value !== 'number') return undefined;
      const ends = [at(value - (error?.arrayminus?.[i] ?? up)), at(value + up)] as const;
      return ends[0] === undefined || ends[1] === undefined ? undefined : ends;
    };
    const [across, upright] = [bar(v, error_x, xAt), bar(y[i], error_y, yAt)];
    return [
      ...(across ? [line(across[0]!, b, across[1]!, b, colour)] : []),
      ...(upright ? [line(a, upright[0]!, a, upright[1]!, colour)] : []),
      point(a, b, symbol ?? 'circle', colour),
    ];
  });
}

/** A point in one of the shapes by which observers are told apart without colour. */
function point(x: number, y: number, symbol: string, colour: string): SvgNode {
  const isOpen = symbol.endsWith('-open');
  const more = { fill: isOpen ? PAPER : colour, stroke: colour, 'stroke-width': 1.4 };
  const [l, r, t, b] = [px(x - SIZE), px(x + SIZE), px(y - SIZE), px(y + SIZE)];
  const shapes: Readonly<Record<string, string>> = {
    square: `M${l},${t}H${r}V${b}H${l}Z`,
    diamond: `M${px(x)},${t}L${r},${px(y)} ${px(x)},${b} ${l},${px(y)}Z`,
    'triangle-up': `M${px(x)},${t}L${r},${b} ${l},${b}Z`,
    cross: `M${px(x)},${t}V${b}M${l},${px(y)}H${r}`,
    x: `M${l},${t}L${r},${b}M${l},${b}L${r},${t}`,
  };
  const d = shapes[symbol.replace('-open', '')];
  return d === undefined
    ? svg('circle', { cx: px(x), cy: px(y), r: SIZE, ...more })
    : svg('path', { d, ...more });
}

interface Entry {
  readonly trace: Trace;
  readonly x: number;
  readonly row: number;
}

/** The names of the traces, side by side as long as there is room. */
function entriesOf(traces: readonly Trace[], room: number): Entry[] {
  let [x, row] = [0, 0];
  return traces.map((trace) => {
    const wide = 40 + LETTER_PX * (trace.name?.length ?? 0);
    if (x > 0 && x + wide > room) [x, row] = [0, row + 1];
    const entry = { trace, x, row };
    x += wide;
    return entry;
  });
}

function legend(entries: readonly Entry[], { left, top }: Box): SvgNode[] {
  const rows = (entries.at(-1)?.row ?? 0) + 1;
  return entries.flatMap(({ trace: { name = '', mode, marker, line: stroke }, x, row }, i) => {
    const [at, y] = [left + x + 12, top - 12 - ROW_PX * (rows - 1 - row)];
    const symbol = typeof marker?.symbol === 'string' ? marker.symbol : 'circle';
    const sign =
      mode === 'lines'
        ? line(at - 12, y, at + 8, y, hue(i), {
            'stroke-width': 1.5,
            'stroke-dasharray': stroke?.dash === 'dash' ? '7 5' : undefined,
          })
        : point(at, y, symbol, hue(i));
    return [sign, text(at + 12, y + 4, name, 'start')];
  });
}
