import type { Random } from '../../core/fix/index.js';
import { starNames, type BodyName } from '../../core/sky/index.js';
import type { Instant, Position } from '../../core/units/index.js';
import { inReach, isTwilight, moments, seenFrom } from './sky.js';
import { shuffled } from './draw.js';

/** Bodies of a star round with the moment when their sights begin. */
export interface Twilight {
  readonly instant: Instant;
  readonly bodies: readonly BodyName[];
}

/** Lines of three bodies cross well when their azimuths lie 40° to 140° apart or in the opposite sectors (common practice, no source). */
const LEAST_CROSSING_DEG = 40;

/** The morning or evening twilight of a day, with `count` stars that are in reach and well spread; or nothing. */
export function drawTwilight(
  random: Random,
  day: Instant,
  from: Position,
  count: number,
): Twilight | undefined {
  const noonHour = 12 - from.lonDeg / 15;
  const evening = random.uniform() < 0.5;
  const [start, end] = evening ? [noonHour + 4, noonHour + 9] : [noonHour - 9, noonHour - 4];
  const times = [...moments(day, Math.floor(start), Math.ceil(end), 2, random.below(60))].filter(
    (t) => isTwilight(seenFrom('Sun', t, from).altDeg),
  );
  const instant = times[Math.floor(times.length / 2)];
  if (!instant) return undefined;
  const chosen: { body: BodyName; azDeg: number }[] = [];
  for (const body of shuffled(random, starNames)) {
    const { altDeg, azDeg } = seenFrom(body, instant, from);
    if (!inReach(altDeg) || chosen.some((c) => crossing(c.azDeg, azDeg) < LEAST_CROSSING_DEG))
      continue;
    chosen.push({ body, azDeg });
    if (chosen.length === count) return { instant, bodies: chosen.map((c) => c.body) };
  }
  return undefined;
}

/** The angle at which two position lines cross, 0° to 90°, from their azimuths. */
export function crossing(a: number, b: number): number {
  const apart = Math.abs(a - b) % 180;
  return Math.min(apart, 180 - apart);
}
