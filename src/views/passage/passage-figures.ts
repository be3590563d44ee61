import { formatCorrection } from '../../core/units/index.js';
import type { PlotlyFigure } from '../chart/chart-figure.js';
import type { Level, PassageData } from './passage-data.js';

const iso = (ms: number) => new Date(ms).toISOString().slice(0, 19).replace('T', ' ');

/** Means of the sessions in order of time between the limits of the control chart. */
export function controlFigure(control: NonNullable<PassageData['control']>): PlotlyFigure {
  const { centre, low, high, points } = control;
  const trace = (name: string, isSignal: boolean, symbol: string) => {
    const mine = points.filter((p) => p.signals.length > 0 === isSignal);
    return {
      type: 'scatter',
      mode: 'markers',
      name,
      x: mine.map((p) => iso(p.timeMs)),
      y: mine.map((p) => p.mean),
      text: mine.map((p) => [p.label, formatCorrection(p.mean), ...p.signals].join(' · ')),
      hovertemplate: '%{text}<extra></extra>',
      marker: { size: isSignal ? 11 : 8, symbol },
    };
  };
  const line = (y: number, dash: string) => ({
    type: 'line',
    xref: 'paper',
    x0: 0,
    x1: 1,
    y0: y,
    y1: y,
    name: 'rule',
    line: { width: 1.2, dash },
  });
  return {
    data: [trace('In control', false, 'circle'), trace('Out of control', true, 'x')].filter(
      (t) => t.x.length > 0,
    ),
    layout: {
      height: 300,
      margin: { t: 16 },
      xaxis: { title: { text: 'Session, UTC' }, type: 'date', tickformat: '%-d %b %Y' },
      yaxis: { title: { text: 'Mean residual, minutes of arc' }, ticksuffix: '′' },
      shapes: [line(centre, 'solid'), line(low, 'dash'), line(high, 'dash')],
      legend: { orientation: 'h', y: 1.12 },
      showlegend: true,
    },
  };
}

const NAMES: Readonly<Record<string, string>> = {
  bearing: 'Direction of the body',
  sea: 'State of the sea',
};

/** Mean residual of each level of a factor with its interval. */
export function factorFigure(factor: string, levels: readonly Level[]): PlotlyFigure {
  const half = (l: Level, side: 'low' | 'high') => Math.abs((l[side] ?? l.mean) - l.mean);
  return {
    data: [
      {
        type: 'scatter',
        mode: 'markers',
        x: levels.map((l) => l.mean),
        y: levels.map((l) => `${l.name} (${l.count})`),
        text: levels.map((l) => `${l.name}: ${formatCorrection(l.mean, 2)}, ${l.count} readings`),
        hovertemplate: '%{text}<extra></extra>',
        marker: { size: 9 },
        error_x: {
          type: 'data',
          symmetric: false,
          array: levels.map((l) => half(l, 'high')),
          arrayminus: levels.map((l) => half(l, 'low')),
          thickness: 1.4,
          width: 4,
        },
      },
    ],
    layout: {
      height: Math.max(150, 78 + levels.length * 24),
      margin: { t: 34, b: 44 },
      title: { text: NAMES[factor] ?? factor.charAt(0).toUpperCase() + factor.slice(1) },
      xaxis: {
        title: { text: 'Mean residual, minutes of arc' },
        ticksuffix: '′',
        zeroline: true,
      },
      yaxis: { type: 'category', autorange: 'reversed' },
      showlegend: false,
    },
  };
}
