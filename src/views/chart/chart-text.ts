import { sharedErrorNote } from '../residuals/shared-note.js';
import type { Fix, Residual } from '../../core/fix/index.js';
import {
  formatAngle,
  formatBearing,
  formatCorrection,
  type Instant,
} from '../../core/units/index.js';
import { interceptText } from '../../core/line/index.js';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** `14 May 2027`. */
export function dateText(instant: Instant): string {
  const [year, month, day] = instant.toIso().slice(0, 10).split('-').map(Number);
  return `${day} ${MONTHS[(month ?? 1) - 1]} ${year}`;
}

/** `05:33`, to the nearest minute. */
export const hoursAndMinutes = (instant: Instant): string =>
  instant.nearestMinute().toIso().slice(11, 16);

/** `Fix, 14 May 2027, 05:33 UTC`; `Estimated position, …` where the lines do not cross. */
export const fixLabel = (fix: Fix): string =>
  `${fix.kind === 'fix' ? 'Fix' : 'Estimated position'}, ${dateText(fix.instant.nearestMinute())}, ${hoursAndMinutes(fix.instant)} UTC`;

/** One sight of a fix as a table shows it. */
export interface FixRow {
  readonly body: string;
  readonly time: string;
  readonly altitude: string;
  readonly azimuth: string;
  readonly intercept: string;
  readonly residual: string;
  /** In units of its own standard deviation. */
  readonly standardised: string;
  /** Part of the fix that rests on this sight, 0 to 1. */
  readonly share: number;
}

const signed = (value: number, decimals: number) =>
  formatCorrection(value, decimals).replace('′', '');

export function fixRow(fix: Fix, i: number): FixRow | undefined {
  const line = fix.lines[i];
  const residual: Residual | undefined = fix.residuals[i];
  if (!line || !residual) return undefined;
  const whole = fix.residuals.reduce((sum, r) => sum + r.leverage, 0);
  const w = residual.standardised;
  return {
    body: line.body,
    time: line.instant.toSecond().slice(11, 19),
    altitude: formatAngle(line.observation.observed.degrees),
    azimuth: formatBearing(line.azimuth.degrees),
    intercept: interceptText(line.intercept),
    residual: formatCorrection(residual.residual.arcminutes),
    standardised: w === null ? 'not checked' : `${signed(w, 1)} σ`,
    share: whole > 0 ? residual.leverage / whole : 0,
  };
}

/** All sights of a fix as a table shows them. */
export const fixRows = (fix: Fix): FixRow[] => fix.lines.flatMap((_, i) => fixRow(fix, i) ?? []);

/** Position, region, what the sigmas are and how the lines were carried, in one line. */
export function fixSummary(fix: Fix): string {
  const bias = fix.commonBias
    ? ` · common error ${formatCorrection(fix.commonBias.value.arcminutes)} ± ${fix.commonBias.sigma.arcminutes.toFixed(1)}′`
    : '';
  return `${fix.position.toString()} · ${fix.region().toString()}${bias}`;
}

/** The fix as text: summary, a line for each sight, what must be known. */
export function fixText(fix: Fix): string {
  const cells = fixRows(fix).map((r) => [
    r.body,
    r.time,
    r.azimuth,
    r.intercept,
    r.residual,
    r.standardised,
    `${Math.round(r.share * 100)} %`,
  ]);
  const head = ['Body', 'UTC', 'Azimuth', 'Intercept', 'Residual', 'Standardised', 'Share'];
  const widths = head.map((h, i) =>
    Math.max(...[head, ...cells].map((c) => [...(c[i] ?? h)].length)),
  );
  const line = (c: readonly string[]) =>
    c
      .map((x, i) =>
        i < 1 ? x.padEnd(widths[i] ?? 0) : ' '.repeat((widths[i] ?? 0) - [...x].length) + x,
      )
      .join('  ');
  const note = sharedErrorNote(fix.lines.map(({ observation }) => observation));
  return [
    fixLabel(fix),
    fixSummary(fix),
    line(head),
    ...cells.map(line),
    ...(note === undefined ? [] : [note]),
    ...fix.flags.map((flag) => flag.text),
  ].join('\n');
}
