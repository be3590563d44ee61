import {
  formatAngle,
  formatBearing,
  formatLatitude,
  formatLongitude,
  Instant,
  type Position,
} from '../../core/units/index.js';
import type { HorizonWindow } from '../../core/plan/index.js';
import type { Light, SetFound, SkyMoment } from './sky-model.js';

const minuteOf = (ms: number): string => Instant.fromEpochMs(ms).nearestMinute().toIso();

/** `18:42` UTC, to the nearest minute. */
export const clock = (ms: number): string => minuteOf(ms).slice(11, 16);

/** `2027-05-14 18:42 UTC`. */
export const dateAndClock = (ms: number): string =>
  `${minuteOf(ms).slice(0, 16).replace('T', ' ')} UTC`;

export const placeText = (at: Position): string =>
  `${formatLatitude(at.latDeg)}, ${formatLongitude(at.lonDeg)}`;

/** `8.3° below the horizon`. */
export const sunText = (altDeg: number): string =>
  `${Math.abs(altDeg).toFixed(1)}° ${altDeg < 0 ? 'below' : 'above'} the horizon`;

const LIGHT: Readonly<Record<Light, string>> = {
  day: 'The Sun is up: Sun, Moon and perhaps Venus can be taken.',
  bright: 'The horizon is sharp, but only the brightest bodies show yet.',
  both: 'Stars and horizon are seen together.',
  dark: 'Stars show, but the horizon is lost: a reading is off by what you take for it.',
};

/** What the light allows at that moment. */
export const lightText = ({ light, sunAltDeg }: SkyMoment): string =>
  `Sun ${sunText(sunAltDeg)}. ${LIGHT[light]}`;

const nameOf = (w: HorizonWindow) => (w.when === 'all night' ? 'All night' : `In the ${w.when}`);

/** `In the evening from 18:23 to 18:49 UTC, 26 minutes.` for each window of the day. */
export function windowsText(windows: readonly HorizonWindow[], sunIsHigh: boolean): string {
  if (windows.length === 0)
    return sunIsHigh
      ? 'No horizon for stars this night: the Sun never comes 6° below it.'
      : 'No horizon for stars this day: the Sun stays more than 12° below it.';
  const parts = windows.map(
    (w) =>
      `${nameOf(w)} from ${clock(w.starts.epochMs)} to ${clock(w.ends.epochMs)} UTC, ${Math.round(w.duration.minutes)} minutes.`,
  );
  return `Horizon usable for stars: ${parts.join(' ')}`;
}

/** What the set gives, in a sentence. */
export function setText(found: SetFound): string {
  if (!found.set) return `No set: ${found.problem}.`;
  const { majorNm, minorNm, radialNm, majorAzimuth } = found.set;
  return `Best set of ${found.order.length}: ${found.order.join(', ')}. Fix ± ${radialNm.toFixed(1)} nm radial, 1σ; ${majorNm.toFixed(1)} × ${minorNm.toFixed(1)} nm, long axis ${formatBearing(majorAzimuth.degrees)}.`;
}

/** Minutes of arc for the arc: `34°17.6′`. */
export const presetText = (degrees: number): string =>
  Number.isFinite(degrees) ? formatAngle(degrees) : '—';
