import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import { Duration } from '../units/scalar.js';
import { sunAt, type EventWindow } from './sky-events.js';

/** A stretch of twilight in which stars and horizon are seen together. */
export interface HorizonWindow {
  /** Evening or morning, or through the night where the Sun is never 12° down. */
  readonly when: 'morning' | 'evening' | 'all night';
  readonly starts: Instant;
  readonly ends: Instant;
  readonly duration: Duration;
}

/** How deep the Sun must be, and for how long to search. */
export interface HorizonWindowOptions extends EventWindow {
  /** Depth of the Sun at which the bright stars show, and at which the horizon is lost, degrees. */
  readonly starsShowDeg?: number;
  /** Depth of the Sun at which the horizon is lost, degrees; 12 unless told. */
  readonly horizonLostDeg?: number;
}

/** Between the end of civil and of nautical twilight: common practice, no source. */
const STARS_SHOW_DEG = 6;
const HORIZON_LOST_DEG = 12;

/**
 * When a star round can be taken: the Sun between 6° and 12° below the horizon (common practice, no source). At high latitudes in summer the
 * window can run through the night (Sun never 12° down), or there is none (never 6° down); the list is then empty.
 * @param from start of the search, at local noon to get the evening and the morning of one night
 * @throws OutOfRangeError for a search of more than 31 days or none, or outside the years 1600 to 2200
 */
export function horizonWindows(
  position: Position,
  from: Instant,
  options: HorizonWindowOptions = {},
): HorizonWindow[] {
  const span = options.span ?? Duration.days(1);
  const show = sunAt(-(options.starsShowDeg ?? STARS_SHOW_DEG), position, from, { span });
  const lost = sunAt(-(options.horizonLostDeg ?? HORIZON_LOST_DEG), position, from, { span });
  const edges = [
    ...show.events.map((e) => ({ instant: e.instant, level: 'show' as const, rising: e.rising })),
    ...lost.events.map((e) => ({ instant: e.instant, level: 'lost' as const, rising: e.rising })),
  ].sort((a, b) => a.instant.compare(b.instant));
  const windows: HorizonWindow[] = [];
  // Inside when below the one level and above the other.
  let inside = !show.startsAbove && lost.startsAbove;
  let start = from;
  let enteredRising = false;
  for (const e of edges) {
    const enters = e.level === 'show' ? !e.rising : e.rising;
    if (enters && !inside) {
      [start, enteredRising] = [e.instant, e.rising];
      inside = true;
    } else if (!enters && inside) {
      windows.push(windowOf(start, e.instant, enteredRising, e.rising));
      inside = false;
    }
  }
  if (inside) windows.push(windowOf(start, from.plus(span), enteredRising, true));
  return windows;
}

function windowOf(
  starts: Instant,
  ends: Instant,
  sunRisesIn: boolean,
  sunRisesOut: boolean,
): HorizonWindow {
  const when = sunRisesIn === sunRisesOut ? (sunRisesIn ? 'morning' : 'evening') : 'all night';
  return Object.freeze({ when, starts, ends, duration: ends.minus(starts) });
}
