import {
  formatAngle,
  formatBearing,
  formatLatitude,
  formatLongitude,
} from '../../core/units/index.js';

/** The shortest decimal that is right to `decimals` places, with a true minus sign. */
const plain = (value: number, decimals: number): string =>
  String(Number(value.toFixed(decimals)) + 0).replace('-', '−');

export const reading = (deg: number): string => formatAngle(deg, 1, 2);
export const latitude = (deg: number): string => formatLatitude(deg, 1);
export const longitude = (deg: number): string => formatLongitude(deg, 1);
export const course = (deg: number): string => formatBearing(deg);
export const minutes = (arcmin: number): string => `${plain(arcmin, 2)}′`;
export const metres = (m: number): string => `${plain(m, 2)} m`;
export const celsius = (c: number): string => `${plain(c, 1)} °C`;
export const hectopascals = (hpa: number): string => `${plain(hpa, 1)} hPa`;
export const knots = (kn: number): string => `${plain(kn, 1)} kn`;

/** `1.4′ off the arc`; zero has no side. */
export function indexError(arcmin: number): string {
  const size = Math.abs(arcmin).toFixed(1);
  if (Number(size) === 0) return '0.0′';
  return `${size}′ ${arcmin > 0 ? 'on' : 'off'} the arc`;
}

/** `12 s slow`; zero has no side. */
export function watchError(seconds: number): string {
  const size = plain(Math.abs(seconds), 1);
  return size === '0' ? '0 s' : `${size} s ${seconds < 0 ? 'slow' : 'fast'}`;
}

/** `2027-05-11 09:42:17`, with the fraction only where there is one. */
export function utc(ms: number): string {
  const iso = new Date(ms).toISOString();
  return iso.slice(0, 19).replace('T', ' ') + (ms % 1000 === 0 ? '' : iso.slice(19, 23));
}
