import { formatAngle } from '../../core/units/index.js';
import type { PlotlyFigure } from '../chart/chart-figure.js';
import { altitudeTicks, hover, iso, TIME_AXIS } from './point-parts.js';
import type { ResidualPoint } from './residual-data.js';

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

/** Where the computed altitudes of a run are greatest. */
export interface Culmination {
  readonly timeMs: number;
  readonly altitudeDeg: number;
}

/**
 * The greatest computed altitude of a run, by the parabola through the three points about it (near the meridian the altitude is a
 * parabola of the time); undefined where the run does not pass over it.
 */
export function culminationOf(points: readonly ResidualPoint[]): Culmination | undefined {
  const run = [...points].sort((a, b) => a.timeMs - b.timeMs);
  const top = run.reduce((best, p, i) => (p.computedDeg > run[best]!.computedDeg ? i : best), 0);
  const [a, b, c] = [run[top - 1], run[top], run[top + 1]];
  if (!a || !b || !c) return undefined;
  const [before, after] = [a.timeMs - b.timeMs, c.timeMs - b.timeMs];
  const [riseA, riseC] = [
    (a.computedDeg - b.computedDeg) / before,
    (c.computedDeg - b.computedDeg) / after,
  ];
  const bend = (riseC - riseA) / (after - before);
  if (!(bend < 0)) return undefined;
  const slope = riseA - bend * before;
  const sinceTop = -slope / (2 * bend);
  return { timeMs: b.timeMs + sinceTop, altitudeDeg: b.computedDeg + (slope * sinceTop) / 2 };
}

/** Altitudes as they are, where the run passes over the greatest. */
function noonLayout(run: readonly ResidualPoint[], top: Culmination) {
  const at = iso(top.timeMs);
  return {
    yaxis: { title: { text: 'Observed altitude, degrees and minutes' }, ...altitudeTicks(run) },
    shapes: [
      {
        type: 'line',
        xref: 'x',
        yref: 'paper',
        x0: at,
        x1: at,
        y0: 0,
        y1: 1,
        line: { width: 1, dash: 'dot' },
        name: 'rule',
      },
    ],
    annotations: [
      {
        text: `greatest ${formatAngle(top.altitudeDeg)} at ${at.slice(11)}`,
        x: at,
        yref: 'paper',
        y: 0,
        yanchor: 'bottom',
        xanchor: 'left',
        showarrow: false,
      },
    ],
  };
}

/**
 * A run of one body's altitudes against the computed ones. Where the body passes its greatest altitude, the altitudes stand as they
 * are and the greatest computed one is marked. Elsewhere the mean change is taken off both, so that a tenth of a minute can be seen;
 * what stays is how far each sight stands off the slope.
 */
export function runFigure(points: readonly ResidualPoint[]): PlotlyFigure {
  const run = [...points].sort((a, b) => a.timeMs - b.timeMs);
  const first = run[0];
  const last = run.at(-1);
  const top = culminationOf(run);
  const minutes = first && last ? (last.timeMs - first.timeMs) / 60_000 : 0;
  const rate =
    first && last && minutes > 0 ? ((last.computedDeg - first.computedDeg) * 60) / minutes : 0;
  const flat = (p: ResidualPoint, deg: number) => {
    if (top || !first) return deg;
    return (deg - first.computedDeg) * 60 - (rate * (p.timeMs - first.timeMs)) / 60_000;
  };
  const x = run.map((p) => iso(p.timeMs));
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        name: top
          ? 'Computed altitude'
          : `Computed slope, ${rate < 0 ? '−' : ''}${Math.abs(rate).toFixed(1)}′ a minute`,
        x,
        y: run.map((p) => flat(p, p.computedDeg)),
        ...(top ? { line: { shape: 'spline' } } : {}),
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
        marker: { size: 10, symbol: run.map((p) => (p.isAccepted ? 'circle' : 'circle-open')) },
        error_y: {
          array: run.map((p) => (top ? p.sigmaArcmin / 60 : p.sigmaArcmin)),
          thickness: 1,
          width: 0,
        },
      },
    ],
    layout: {
      height: 380,
      margin: { t: 16 },
      xaxis: { title: { text: 'Time, UTC' }, ...TIME_AXIS },
      ...(top
        ? noonLayout(run, top)
        : {
            yaxis: {
              title: { text: 'Altitude less the mean slope, minutes of arc' },
              ticksuffix: '′',
            },
          }),
      legend: { orientation: 'h', y: 1.12 },
      hovermode: 'closest',
    },
  };
}
