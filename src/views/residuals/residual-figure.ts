import { formatBearing } from '../../core/units/index.js';
import type { PlotlyFigure } from '../chart/chart-figure.js';
import { altitudeTicks, hover, iso, TIME_AXIS } from './point-parts.js';
import type { ResidualPoint } from './residual-data.js';
import { runFigure, runOf } from './run-figure.js';

/** What the residuals are laid out along. */
export type ResidualAxis = 'time' | 'altitude' | 'azimuth' | 'body' | 'observer';
export const RESIDUAL_AXES: readonly ResidualAxis[] = [
  'time',
  'altitude',
  'azimuth',
  'body',
  'observer',
];

/** How residuals are laid out: along an axis, or the run of a body, `run Sun`. */
export type ResidualLayout = ResidualAxis | `run ${string}`;

export interface FigureChoices {
  readonly axis: ResidualAxis;
  readonly isStandardised: boolean;
}

const SYMBOLS = ['circle', 'square', 'diamond', 'triangle-up', 'cross', 'x'];

const AXES: Readonly<
  Record<ResidualAxis, { title: string; of: (p: ResidualPoint) => number | string }>
> = {
  time: { title: 'Time, UTC', of: (p) => iso(p.timeMs) },
  altitude: { title: 'Observed altitude, degrees and minutes', of: (p) => p.altitudeDeg },
  azimuth: { title: 'Azimuth, degrees true', of: (p) => p.azimuthDeg },
  body: { title: 'Body', of: (p) => p.body },
  observer: { title: 'Observer', of: (p) => p.observer || 'not noted' },
};

const yOf = (p: ResidualPoint, isStandardised: boolean) =>
  isStandardised ? (p.standardised ?? null) : p.residualArcmin;

function axisLayout(axis: ResidualAxis, points: readonly ResidualPoint[]): Record<string, unknown> {
  const title = { text: AXES[axis].title };
  if (axis === 'azimuth') {
    const tickvals = Array.from({ length: 9 }, (_, i) => i * 45);
    return { title, range: [0, 360], tickvals, ticktext: tickvals.map((v) => formatBearing(v)) };
  }
  if (axis === 'altitude') return points.length ? { title, ...altitudeTicks(points) } : { title };
  return axis === 'time' ? { title, ...TIME_AXIS } : { title, type: 'category', automargin: true };
}

/** Strips of one and of two standard deviations behind the points. */
function bands(points: readonly ResidualPoint[], isStandardised: boolean) {
  const sigmas = points.map((p) => p.sigmaArcmin).sort((a, b) => a - b);
  const sigma = isStandardised ? 1 : (sigmas[Math.floor(sigmas.length / 2)] ?? 0);
  return [2, 1].map((k) => ({
    type: 'rect',
    xref: 'paper',
    x0: 0,
    x1: 1,
    y0: -k * sigma,
    y1: k * sigma,
    layer: 'below',
    line: { width: 0 },
    name: 'band',
  }));
}

/** A few gross slips would press all other points flat: they are left beyond the edge, and said to be. */
function edgeOf(points: readonly ResidualPoint[], isStandardised: boolean): number | undefined {
  const sizes = points
    .flatMap((p) => Math.abs(yOf(p, isStandardised) ?? NaN))
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  const most = sizes.at(-1) ?? 0;
  const usual = 2.2 * (sizes[Math.floor(sizes.length * 0.95)] ?? 0);
  return sizes.length >= 20 && most > 1.5 * usual ? usual : undefined;
}

const mostOf = (points: readonly ResidualPoint[], isStandardised: boolean): number =>
  Math.max(0, ...points.map((p) => Math.abs(yOf(p, isStandardised) ?? 0)));

/** In the corner where few points are: above the plot stand the buttons. */
const beyondNote = (count: number) => ({
  text: `${count} beyond the edge: in the table, or zoom out`,
  xref: 'paper',
  yref: 'paper',
  x: 0,
  y: 0,
  xanchor: 'left',
  yanchor: 'bottom',
  // Clear of the figures on the axis, which it would else seem to belong to.
  xshift: 10,
  yshift: 5,
  showarrow: false,
  font: { size: 12 },
});

/** Residuals as a plotly figure; a point's `customdata` is the key of its sight. */
export function residualFigure(
  points: readonly ResidualPoint[],
  { axis, isStandardised }: FigureChoices,
): PlotlyFigure {
  const groups = [...new Set(points.map((p) => p.observer))];
  const { of } = AXES[axis];
  const edge = edgeOf(points, isStandardised);
  const beyond = edge
    ? points.filter((p) => Math.abs(yOf(p, isStandardised) ?? 0) > edge).length
    : 0;
  const data = groups.flatMap((observer, i) =>
    [true, false].flatMap((isAccepted) => {
      const mine = points.filter((p) => p.observer === observer && p.isAccepted === isAccepted);
      if (mine.length === 0) return [];
      const name = observer ? `Observer ${observer}` : 'Sights';
      const symbol = SYMBOLS[i % SYMBOLS.length] ?? 'circle';
      return [
        {
          type: 'scatter',
          mode: 'markers',
          name: isAccepted ? name : `${name}, rejected`,
          x: mine.map(of),
          y: mine.map((p) => yOf(p, isStandardised)),
          text: mine.map(hover),
          customdata: mine.map((p) => p.key),
          hovertemplate: '%{text}<extra></extra>',
          marker: { size: 10, symbol: isAccepted ? symbol : `${symbol}-open` },
          ...(isStandardised
            ? {}
            : { error_y: { array: mine.map((p) => p.sigmaArcmin), thickness: 1, width: 0 } }),
        },
      ];
    }),
  );
  return {
    data,
    layout: {
      height: 380,
      margin: { t: 22 },
      showlegend: data.length > 1,
      xaxis: axisLayout(axis, points),
      yaxis: {
        title: {
          text: isStandardised ? 'Residual, standard deviations' : 'Residual, minutes of arc',
        },
        zeroline: true,
        ...(edge === undefined ? {} : { range: [-edge, edge] }),
        ticksuffix: isStandardised ? ' σ' : '′',
        // Ticks may stand half a minute apart: then all have the decimal.
        tickformat: mostOf(points, isStandardised) < 3 ? '.1f' : '',
      },
      shapes: bands(points, isStandardised),
      annotations: beyond > 0 ? [beyondNote(beyond)] : [],
      hovermode: 'closest',
    },
  };
}

/** The figure of a layout: a run of one body, or all points along an axis. */
export const laidOutFigure = (
  points: readonly ResidualPoint[],
  layout: ResidualLayout,
  isStandardised: boolean,
): PlotlyFigure =>
  layout.startsWith('run ')
    ? runFigure(runOf(points, layout.slice(4)))
    : residualFigure(points, { axis: layout as ResidualAxis, isStandardised });
