import { altitudeKernel } from '../../core/line/index.js';
import type { Fix } from '../../core/fix/index.js';
import { sharedErrorNote } from '../residuals/shared-note.js';
import { escapeHtml } from '../escape.js';
import { svgMarkup, type SvgNode } from '../svg/svg-node.js';
import { chartSvg, frameFor } from './chart-svg.js';
import { fixLabel, fixRows, fixSummary } from './chart-text.js';
import type { ChartScene } from './scene.js';
import { extent, windowAround, type ChartWindow, type Box, type Place } from './window.js';

/**
 * Whether any line comes near the window; its run is left aside. Where sights contradict each other by degrees the fix lies
 * between lines that are all far from it.
 */
function hasALine(w: ChartWindow, { lines, fix }: ChartScene): boolean {
  if (!fix) return true;
  const { southDeg, northDeg } = extent(w);
  const { latDeg, lonDeg } = fix.place;
  return lines.some(({ isOff, radiusDeg, geographicalPosition: gp }) => {
    const { altDeg } = altitudeKernel(latDeg, lonDeg, -gp.lonDeg, gp.latDeg);
    return !isOff && Math.abs(90 - altDeg - radiusDeg) < northDeg - southDeg;
  });
}

/** What a chart shows first: the region, the hat, and the DR when it is near or no line passes by. */
export function firstWindow(scene: ChartScene, frame: Box): ChartWindow {
  const region = scene.region?.isBounded ? scene.region.outline : [];
  const near = [...(scene.fix ? [scene.fix.place] : []), ...region, ...(scene.hat ?? [])];
  const drAlone = scene.dr && near.length === 0 ? [scene.dr.place] : [];
  const around = windowAround(frame, [...near, ...drAlone], 1.7);
  if (!scene.dr || near.length === 0) return around;
  const withDr = windowAround(frame, [...near, scene.dr.place], 1.3);
  return withDr.perMinute * 4 > around.perMinute || !hasALine(around, scene) ? withDr : around;
}

const SIZE = { width: 720, height: 560 };

/** The chart of a fix as it stands, for hosts without our extension. */
export function stillChart(scene: ChartScene, places: readonly Place[] = []): SvgNode {
  const frame = frameFor(SIZE.width, SIZE.height);
  const w = places.length ? windowAround(frame, places) : firstWindow(scene, frame);
  return chartSvg(scene, w, SIZE);
}

const CELL = 'padding:3px 8px;text-align:left';
const NUMBER =
  'padding:3px 8px;text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums';

/** The sights of a fix as a static table. */
export function fixTableHtml(fix: Fix): string {
  const heads = [
    'Body',
    'UTC',
    'Azimuth',
    'Intercept',
    'Residual',
    'Standardised',
    'Share of the fix',
  ];
  const head = heads
    .map((name, i) => `<th scope="col" style="${i ? NUMBER : CELL}">${name}</th>`)
    .join('');
  const rows = fixRows(fix)
    .map((r) =>
      [r.time, r.azimuth, r.intercept, r.residual, r.standardised, `${Math.round(r.share * 100)} %`]
        .map((text) => `<td style="${NUMBER}">${escapeHtml(text)}</td>`)
        .join('')
        .replace(/^/, `<th scope="row" style="${CELL};font-weight:400">${escapeHtml(r.body)}</th>`),
    )
    .map((cells) => `<tr>${cells}</tr>`)
    .join('');
  return `<table style="border-collapse:collapse"><thead><tr>${head}</tr></thead><tbody>${rows}</tbody></table>`;
}

/** Chart, table and what must be known, without scripts. */
export function chartHtml(fix: Fix, scene: ChartScene): string {
  const flags = fix.flags
    .map((flag) => `<p style="margin:.4em 0">${escapeHtml(flag.text)}</p>`)
    .join('');
  const note = sharedErrorNote(fix.lines.map((line) => line.observation));
  return [
    '<div class="cocked-hat-chart">',
    `<p><b>${escapeHtml(fixLabel(fix))}</b><br>${escapeHtml(fixSummary(fix))}</p>`,
    svgMarkup(stillChart(scene)),
    fixTableHtml(fix),
    note ? `<p style="margin:.4em 0;font-size:.9em">${escapeHtml(note)}</p>` : '',
    flags,
    '</div>',
  ].join('');
}
