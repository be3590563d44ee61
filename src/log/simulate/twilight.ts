import { altitudeKernel } from '../../core/line/altitude-kernel.js';
import { bodyNames, type BodyName } from '../../core/sky/index.js';
import { bodyPlace } from '../derived/body-place.js';
import type { Place } from './voyage.js';

/** A body up at a time. */
interface Up {
  readonly body: BodyName;
  readonly altDeg: number;
  readonly azDeg: number;
}

export function altitudeAt(body: BodyName, utcMs: number, place: Place): Up {
  const { ghaDeg, decDeg } = bodyPlace(body, utcMs);
  return { body, ...altitudeKernel(place.latDeg, place.lonDeg, ghaDeg, decDeg) };
}

/** First time from `fromMs` on when the Sun's altitude passes `altDeg`, found to a second by steps and halving. */
export function sunPasses(altDeg: number, fromMs: number, where: (utcMs: number) => Place): number {
  const off = (ms: number) => altitudeAt('Sun', ms, where(ms)).altDeg - altDeg;
  const step = 600_000;
  let [a, b] = [fromMs, fromMs + step];
  while (Math.sign(off(a)) === Math.sign(off(b))) [a, b] = [b, b + step];
  while (b - a > 1000) {
    const middle = (a + b) / 2;
    if (Math.sign(off(middle)) === Math.sign(off(a))) a = middle;
    else b = middle;
  }
  return Math.round(b / 1000) * 1000;
}

/** Stars too faint for a horizon still in sight are left to the dark. */
const HARD: ReadonlySet<BodyName> = new Set([
  'Polaris',
  'Zubenelgenubi',
  'Acamar',
  'Kochab',
  'Sun',
]);

/** `count` bodies between 18° and 68° up, as evenly spread in azimuth as a greedy choice makes them. */
export function pickBodies(utcMs: number, place: Place, count: number, turn: number): BodyName[] {
  const up = bodyNames
    .filter((b) => !HARD.has(b))
    .map((b) => altitudeAt(b, utcMs, place))
    .filter((u) => u.altDeg > 18 && u.altDeg < 68);
  const chosen: Up[] = [];
  const first = up[turn % up.length];
  if (first) chosen.push(first);
  while (chosen.length < count && chosen.length < up.length) {
    const gap = (u: Up) =>
      Math.min(...chosen.map((c) => Math.abs(((u.azDeg - c.azDeg + 540) % 360) - 180)));
    const best = up.filter((u) => !chosen.includes(u)).reduce((a, b) => (gap(b) > gap(a) ? b : a));
    chosen.push(best);
  }
  return chosen.map((u) => u.body);
}
