import { formatAngle, formatBearing, formatCorrection } from '../../core/units/index.js';
import type { PlotlyFigure } from '../chart/chart-figure.js';
import type { ResidualPoint } from './residual-data.js';

/** What the residuals are laid out along. */
export type ResidualAxis = 'time' | 'altitude' | 'azimuth' | 'observer';

export interface FigureChoices {
  readonly axis: ResidualAxis;
  readonly isStandardised: boolean;
}

const SYMBOLS = ['circle', 'square', 'diamond', 'triangle-up', 'cross', 'x'];
const iso = (ms: number) => new Date(ms).toISOString().slice(0, 19).replace('T', ' ');

const AXES: Readonly<
  Record<ResidualAxis, { title: string; of: (p: ResidualPoint) => number | string }>
> = {
  time: { title: 'Time, UTC', of: (p) => iso(p.timeMs) },
  altitude: { title: 'Observed altitude, degrees and minutes', of: (p) => p.altitudeDeg },
  azimuth: { title: 'Azimuth, degrees true', of: (p) => p.azimuthDeg },
  observer: { title: 'Observer', of: (p) => p.observer || 'not noted' },
};

const yOf = (p: ResidualPoint, isStandardised: boolean) =>
  isStandardised ? (p.standardised ?? null) : p.residualArcmin;

/** Residual for the reader who points at it. */
const hover = (p: ResidualPoint) =>
  [
    p.body,
    `${iso(p.timeMs).slice(11)} UTC`,
    `Ho ${formatAngle(p.altitudeDeg)}`,
    `Zn ${formatBearing(p.azimuthDeg)}`,
    formatCorrection(p.residualArcmin),
    ...(p.standardised === undefined ? [] : [`${p.standardised.toFixed(1)} σ`]),
    ...(p.observer ? [`observer ${p.observer}`] : []),
    ...(p.isAccepted ? [] : [p.reason ? `rejected: ${p.reason}` : 'rejected']),
  ].join(' · ');

const TIME_AXIS = { type: 'date', tickformat: '%H:%M\n%-d %b %Y' };

const ALTITUDE_STEPS_ARCMIN = [1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200];
const MOST_TICKS = 8;

/** Ticks at whole minutes or degrees over the altitudes there are, in degrees and minutes. */
function altitudeTicks(points: readonly ResidualPoint[]) {
  const minutes = points.map((p) => p.altitudeDeg * 60);
  const [low, high] = [Math.min(...minutes), Math.max(...minutes)];
  const step = ALTITUDE_STEPS_ARCMIN.find((s) => (high - low) / s < MOST_TICKS) ?? 1200;
  const count = Math.floor(high / step) - Math.ceil(low / step) + 3;
  const tickvals = Array.from(
    { length: count },
    (_, i) => ((Math.ceil(low / step) - 1 + i) * step) / 60,
  );
  const ticktext = tickvals.map((v) => (step % 60 === 0 ? `${v}°` : formatAngle(v, 0)));
  return { tickvals, ticktext };
}

function axisLayout(axis: ResidualAxis, points: readonly ResidualPoint[]): Record<string, unknown> {
  const title = { text: AXES[axis].title };
  if (axis === 'azimuth') {
    const tickvals = Array.from({ length: 9 }, (_, i) => i * 45);
    return { title, range: [0, 360], tickvals, ticktext: tickvals.map((v) => formatBearing(v)) };
  }
  if (axis === 'altitude') return points.length ? { title, ...altitudeTicks(points) } : { title };
  return axis === 'observer' ? { title, type: 'category' } : { title, ...TIME_AXIS };
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

const beyondNote = (count: number) => ({
  text: `${count} beyond the edge: in the table, or zoom out`,
  xref: 'paper',
  yref: 'paper',
  x: 1,
  y: 1,
  xanchor: 'right',
  yanchor: 'bottom',
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
      },
      shapes: bands(points, isStandardised),
      annotations: beyond > 0 ? [beyondNote(beyond)] : [],
      hovermode: 'closest',
    },
  };
}

/** Bodies with readings enough to show a run. */
export function runBodies(points: readonly ResidualPoint[], least = 3): string[] {
  const counts = new Map<string, number>();
  for (const p of points) counts.set(p.body, (counts.get(p.body) ?? 0) + 1);
  return [...counts].filter(([, n]) => n >= least).map(([body]) => body);
}

const LONGEST_RUN_MS = 30 * 60_000;

/** The run of a body's sights that holds the most of them within half an hour. */
export function runOf(points: readonly ResidualPoint[], body: string): ResidualPoint[] {
  const mine = points.filter((p) => p.body === body).sort((a, b) => a.timeMs - b.timeMs);
  const runs = mine.map((start) =>
    mine.filter((p) => p.timeMs >= start.timeMs && p.timeMs - start.timeMs <= LONGEST_RUN_MS),
  );
  return runs.reduce<ResidualPoint[]>((best, run) => (run.length > best.length ? run : best), []);
}

/**
 * A run of one body's altitudes against the computed slope. The mean change is taken off both, so that a tenth of a
 * minute can be seen; what stays is how far each sight stands off the slope.
 */
export function runFigure(points: readonly ResidualPoint[]): PlotlyFigure {
  const run = [...points].sort((a, b) => a.timeMs - b.timeMs);
  const first = run[0];
  const last = run.at(-1);
  const minutes = first && last ? (last.timeMs - first.timeMs) / 60_000 : 0;
  const rate =
    first && last && minutes > 0 ? ((last.computedDeg - first.computedDeg) * 60) / minutes : 0;
  const flat = (p: ResidualPoint, deg: number) =>
    first ? (deg - first.computedDeg) * 60 - (rate * (p.timeMs - first.timeMs)) / 60_000 : 0;
  const x = run.map((p) => iso(p.timeMs));
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        name: `Computed slope, ${rate < 0 ? '−' : ''}${Math.abs(rate).toFixed(1)}′ a minute`,
        x,
        y: run.map((p) => flat(p, p.computedDeg)),
        hoverinfo: 'skip',
      },
      {
        type: 'scatter',
        mode: 'markers',
        name: 'Observed',
        x,
        y: run.map((p) => flat(p, p.altitudeDeg)),
        text: run.map(hover),
        customdata: run.map((p) => p.key),
        hovertemplate: '%{text}<extra></extra>',
        marker: { size: 10 },
        error_y: { array: run.map((p) => p.sigmaArcmin), thickness: 1, width: 0 },
      },
    ],
    layout: {
      height: 380,
      margin: { t: 16 },
      xaxis: { title: { text: 'Time, UTC' }, ...TIME_AXIS },
      yaxis: { title: { text: 'Altitude less the mean slope, minutes of arc' }, ticksuffix: '′' },
      legend: { orientation: 'h', y: 1.12 },
      hovermode: 'closest',
    },
  };
}
