const MINUS = '−';

/** Degrees rounded once to a whole number of 10^-decimals minutes of arc, split for printing. */
function split(absDegrees: number, decimals: number): { whole: number; minutes: string } {
  const scale = 10 ** decimals;
  const units = Math.round(absDegrees * 60 * scale);
  const perDegree = 60 * scale;
  const whole = Math.floor(units / perDegree);
  return { whole, minutes: ((units % perDegree) / scale).toFixed(decimals) };
}

/**
 * Degrees and minutes in trade notation, rounded once at the end: never 60.0′, never −0.0′.
 * @param degrees decimal degrees, signed, finite
 * @param decimals decimals of the minutes, 1 unless told
 * @param width least digits of the degrees, padded with zeros
 */
export function formatAngle(degrees: number, decimals = 1, width = 1): string {
  const { whole, minutes } = split(Math.abs(degrees), decimals);
  const sign = degrees < 0 && (whole > 0 || Number(minutes) > 0) ? MINUS : '';
  const minuteWidth = decimals > 0 ? decimals + 3 : 2;
  return `${sign}${String(whole).padStart(width, '0')}°${minutes.padStart(minuteWidth, '0')}′`;
}

/** `15°55.2′ S`; zero prints as N. @param degrees north positive, within ±90. */
export function formatLatitude(degrees: number, decimals = 1): string {
  const body = formatAngle(Math.abs(degrees), decimals, 2);
  return `${body} ${degrees < 0 && !isZero(body) ? 'S' : 'N'}`;
}

/** `005°43.1′ W`; zero prints as E, 180° as E. @param degrees east positive; wrapped to ±180. */
export function formatLongitude(degrees: number, decimals = 1): string {
  const wrapped = degrees - 360 * Math.ceil((degrees - 180) / 360);
  const body = formatAngle(Math.abs(wrapped), decimals, 3);
  return `${body} ${wrapped < 0 && !isZero(body) && !body.startsWith('180°') ? 'W' : 'E'}`;
}

/** `015°`; 359.7 prints as 000°. @param degrees a direction, any multiple of a turn. */
export function formatBearing(degrees: number, decimals = 0): string {
  const scale = 10 ** decimals;
  const units = Math.round((degrees - 360 * Math.floor(degrees / 360)) * scale) % (360 * scale);
  const width = decimals > 0 ? decimals + 4 : 3;
  return `${(units / scale).toFixed(decimals).padStart(width, '0')}°`;
}

/**
 * A correction with its sign: `+1.4′`, `−2.8′`, `0.0′`.
 * @param arcminutes minutes of arc, to be added
 * @param decimals 1 unless told
 */
export function formatCorrection(arcminutes: number, decimals = 1): string {
  return `${formatSigned(arcminutes, decimals)}′`;
}

/** A number with its sign always printed: `+0.6`, `−1.4`, `0.0`. */
export function formatSigned(value: number, decimals = 1): string {
  const digits = Math.abs(value).toFixed(decimals);
  const sign = Number(digits) === 0 ? '' : value < 0 ? MINUS : '+';
  return `${sign}${digits}`;
}

function isZero(body: string): boolean {
  return !/[1-9]/.test(body);
}
