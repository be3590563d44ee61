import { altitudeKernel } from '../../core/line/index.js';
import { newPlaceNumbers, placeKernel, type BodyName } from '../../core/sky/index.js';
import { Instant, type Position } from '../../core/units/index.js';

/** Altitudes a student can be asked to use: not so low that refraction rules, not so high that a line bends. */
export const LEAST_ALTITUDE_DEG = 15;
export const GREATEST_ALTITUDE_DEG = 70;
/**
 * The Sun's altitude while stars and horizon are both seen, about the middle of nautical twilight: limits after the
 * definitions of civil (−6°) and nautical (−12°) twilight; the window inside them is common practice, no source.
 */
const TWILIGHT_DEG = { highest: -5, lowest: -10 };

/** Altitude and azimuth of a body from a place, degrees. */
export function seenFrom(body: BodyName, instant: Instant, from: Position) {
  const { ghaDeg, decDeg } = placeKernel(body, instant.tt, instant.ut1, newPlaceNumbers());
  return altitudeKernel(from.latDeg, from.lonDeg, ghaDeg, decDeg);
}

export const inReach = (altDeg: number): boolean =>
  altDeg >= LEAST_ALTITUDE_DEG && altDeg <= GREATEST_ALTITUDE_DEG;

export const isTwilight = (sunAltDeg: number): boolean =>
  sunAltDeg >= TWILIGHT_DEG.lowest && sunAltDeg <= TWILIGHT_DEG.highest;

/** Every `stepMinutes` of the day from `from` to `to` hours UTC, with a fixed second so that none is round. */
export function* moments(day: Instant, from: number, to: number, stepMinutes: number, second = 0) {
  for (let minute = from * 60; minute < to * 60; minute += stepMinutes)
    yield Instant.fromEpochMs(day.epochMs + (Math.round(minute) * 60 + second) * 1000);
}

/** Meridian passage of the Sun at a place on a day: the moment of least hour angle, to a second. */
export function meridianPassage(day: Instant, at: Position): Instant {
  let guess = day.epochMs + (12 - at.lonDeg / 15) * 3_600_000;
  for (let i = 0; i < 5; i++) {
    const instant = Instant.fromEpochMs(Math.round(guess / 1000) * 1000);
    const { ghaDeg } = placeKernel('Sun', instant.tt, instant.ut1, newPlaceNumbers());
    const lha = ghaDeg + at.lonDeg;
    const west = lha - 360 * Math.round(lha / 360);
    guess -= (west / 15) * 3_600_000;
  }
  return Instant.fromEpochMs(Math.round(guess / 1000) * 1000);
}
