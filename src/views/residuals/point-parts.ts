import { formatAngle, formatBearing, formatCorrection } from '../../core/units/index.js';
import type { ResidualPoint } from './residual-data.js';

/** `2027-05-09 11:44:42`, as plotly reads a date. */
export const iso = (ms: number) =>
  new Date(Math.round(ms / 1000) * 1000).toISOString().slice(0, 19).replace('T', ' ');

/** `−0.8 σ`: in standard deviations, with its sign. */
export const sigmas = (standardised: number) =>
  `${formatCorrection(standardised).replace('′', '')} σ`;

/** Residual for the reader who points at it. */
export const hover = (p: ResidualPoint) =>
  [
    p.body,
    `${iso(p.timeMs).slice(11)} UTC`,
    `Ho ${formatAngle(p.altitudeDeg)}`,
    `Zn ${formatBearing(p.azimuthDeg)}`,
    formatCorrection(p.residualArcmin),
    ...(p.standardised === undefined ? [] : [sigmas(p.standardised)]),
    ...(p.observer ? [`observer ${p.observer}`] : []),
    ...(p.isAccepted ? [] : [p.reason ? `rejected: ${p.reason}` : 'rejected']),
  ].join(' · ');

/** Hours and minutes, with the date below. */
export const TIME_AXIS = { type: 'date', tickformat: '%H:%M\n%-d %b %Y' };

const ALTITUDE_STEPS_ARCMIN = [1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200];
const MOST_TICKS = 8;

/** Ticks at whole minutes or degrees over the altitudes there are, in degrees and minutes. */
export function altitudeTicks(points: readonly ResidualPoint[]) {
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
