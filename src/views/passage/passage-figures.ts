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
  const times = points.map((p) => p.timeMs);
  const ends = [iso(Math.min(...times)), iso(Math.max(...times))];
  const lines = (name: string, levels: readonly number[], dash: string) => ({
    type: 'scatter',
    mode: 'lines',
    name,
    // A gap parts one level from the next.
    x: levels.flatMap(() => [...ends, null]),
    y: levels.flatMap((y) => [y, y, null]),
    hoverinfo: 'skip',
    line: { width: 1.4, dash },
  });
  return {
    data: [
      trace('In control', false, 'circle'),
      lines(`Centre ${formatCorrection(centre)}`, [centre], 'solid'),
      lines(`Limits ${formatCorrection(low)} and ${formatCorrection(high)}`, [low, high], 'dash'),
      trace('Out of control', true, 'x'),
    ].filter((t) => t.x.length > 0),
    layout: {
      height: 300,
      margin: { t: 16 },
      xaxis: { title: { text: 'Session, UTC' }, type: 'date', tickformat: '%-d %b\n%Y' },
      yaxis: { title: { text: 'Mean residual, minutes of arc' }, ticksuffix: '′' },
      legend: { orientation: 'h', y: 1.12 },
      showlegend: true,
    },
  };
}

/** From the least to the greatest end of any interval, nought among them, so that all factors stand to one scale. */
function scaleOf(factors: PassageData['factors']): [low: number, high: number] {
  const ends = factors.flatMap(({ levels }) =>
    levels.flatMap((l) => [l.low ?? l.mean, l.high ?? l.mean]),
  );
  const [low, high] = [Math.min(0, ...ends), Math.max(0, ...ends)];
  const room = 0.04 * (high - low || 1);
  return [low - room, high + room];
}

const CHARACTER_PX = 7;

const levelName = (l: Level) => `${l.name} (${l.count})`;

/** The plots of all factors with more than one level, each by the name of its section. */
export function factorFigures(factors: PassageData['factors']): PlotlyFigure[] {
  const drawn = factors.filter(({ levels }) => levels.length > 1);
  const range = scaleOf(drawn);
  const names = drawn.flatMap(({ levels }) => levels.map(levelName));
  const left = 16 + CHARACTER_PX * Math.max(0, ...names.map((name) => name.length));
  return drawn.map((factor) => factorFigure(factor, range, left));
}

/** Mean residual of each level of a factor with its interval. */
function factorFigure(
  { factor, levels, isPart }: PassageData['factors'][number],
  range: readonly [number, number],
  left: number,
): PlotlyFigure {
  const half = (l: Level, side: 'low' | 'high') => Math.abs((l[side] ?? l.mean) - l.mean);
  return {
    data: [
      {
        type: 'scatter',
        mode: 'markers',
        x: levels.map((l) => l.mean),
        y: levels.map(levelName),
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
      // Room of one width for all names, so that nought stands under nought.
      margin: { t: 34, b: 44, l: left },
      title: { text: `By ${factor}${isPart ? `, the ${levels.length} with most readings` : ''}` },
      xaxis: {
        title: { text: 'Mean residual, minutes of arc' },
        ticksuffix: '′',
        tickformat: range[1] - range[0] < 5 ? '.1f' : '',
        range: [...range],
        zeroline: true,
      },
      yaxis: { type: 'category', autorange: 'reversed', automargin: false },
      showlegend: false,
    },
  };
}
