import { formatLatitude, formatLongitude } from '../../core/units/index.js';
import type { ChartScene } from './scene.js';
import { firstWindow } from './chart-html.js';
import { linePieces } from './line-geometry.js';
import { meridionalParts } from './mercator.js';
import { extent, nearestTurn, placeAt, type Place, type Point } from './window.js';
import { graticuleStep, multiples } from './graticule.js';

const FRAME = { left: 0, top: 0, width: 640, height: 520 };
const DASHES = ['solid', 'dash', 'dot', 'dashdot', 'longdash', 'longdashdot'];

/** A figure as plotly.js takes it. */
export interface PlotlyFigure {
  readonly data: readonly Record<string, unknown>[];
  readonly layout: Record<string, unknown>;
}

/**
 * The chart as a plotly figure: Mercator (the vertical axis counts meridional parts), ticks in degrees and minutes.
 * For hosts that draw plotly but not our own view, and for those who want to go on in plotly.
 */
export function chartFigure(scene: ChartScene): PlotlyFigure {
  const w = firstWindow(scene, FRAME);
  const { southDeg, northDeg, westDeg, eastDeg } = extent(w);
  const xOf = (p: Place) => nearestTurn(p.lonDeg, w.lonDeg) * 60;
  const yOf = (p: Place) => meridionalParts(p.latDeg);
  const text = (p: Place) => `${formatLatitude(p.latDeg)}, ${formatLongitude(p.lonDeg)}`;
  const trace = (name: string, places: readonly Place[], more: object) => ({
    type: 'scatter',
    mode: 'lines',
    name,
    x: places.map(xOf),
    y: places.map(yOf),
    text: places.map(text),
    hovertemplate: '%{text}<extra>%{fullData.name}</extra>',
    ...more,
  });
  const pieces = (points: readonly Point[][]) => points.flat().map((point) => placeAt(w, point));
  const region = scene.region;
  const data = [
    ...(region
      ? [
          trace(`${region.percent} % region`, closed(region.outline), {
            fill: 'toself',
            line: { width: 1 },
            opacity: 0.5,
          }),
        ]
      : []),
    ...scene.lines.map((line) =>
      trace(`${line.body} ${line.time}`, pieces(linePieces(line, w)), {
        line: { width: 2, dash: DASHES[line.style % DASHES.length] },
        ...(line.isOff ? { visible: 'legendonly' } : {}),
      }),
    ),
    ...(scene.hat ? [trace('Cocked hat', closed(scene.hat), { line: { width: 3 } })] : []),
    ...(scene.dr
      ? [
          trace('DR', [scene.dr.place], {
            mode: 'markers',
            marker: { symbol: 'triangle-up-open', size: 12 },
          }),
        ]
      : []),
    ...(scene.fix
      ? [
          trace(`${scene.fix.isEstimate ? '' : 'Fix '}${scene.fix.label}`, [scene.fix.place], {
            mode: 'markers',
            marker: {
              symbol: scene.fix.isEstimate ? 'square-open-dot' : 'circle-open-dot',
              size: 15,
              line: { width: 2 },
            },
          }),
        ]
      : []),
  ];
  const latStep = graticuleStep(w.perMinute, 64);
  const lonStep = graticuleStep(w.perMinute, 96);
  const lats = multiples(southDeg, northDeg, latStep);
  const lons = multiples(westDeg, eastDeg, lonStep);
  const decimals = (step: number) => (step < 1 ? 1 : 0);
  return {
    data,
    layout: {
      title: { text: scene.title },
      height: 600,
      xaxis: {
        title: { text: 'Longitude' },
        range: [westDeg * 60, eastDeg * 60],
        tickvals: lons.map((lon) => lon * 60),
        ticktext: lons.map((lon) => formatLongitude(lon, decimals(lonStep))),
      },
      yaxis: {
        title: { text: 'Latitude' },
        range: [meridionalParts(southDeg), meridionalParts(northDeg)],
        scaleanchor: 'x',
        tickvals: lats.map(meridionalParts),
        ticktext: lats.map((lat) => formatLatitude(lat, decimals(latStep))),
      },
    },
  };
}

const closed = (ring: readonly Place[]): Place[] => [...ring, ...ring.slice(0, 1)];
