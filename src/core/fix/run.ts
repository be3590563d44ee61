import type { AltitudeObservation } from '../line/observation.js';
import type { Instant } from '../units/instant.js';
import { Position } from '../units/position.js';
import { placeOfSight, type Leg, type RunError } from './altitude-model.js';
import type { FixSettings, TrackLeg } from './fix-options.js';

const METRES_PER_MILE = 1852;

/** How the vessel went from the time of the fix to the time of a sight. */
export interface Run {
  readonly legs: readonly Leg[];
  readonly errors: readonly RunError[];
  /** Hours from the fix to the sight, negative before it. */
  readonly hours: number;
}

/** The track: as told, or from the sights' own courses and speeds, each from its time on; null when nothing is known. */
export function trackOf(
  observations: readonly AltitudeObservation[],
  settings: FixSettings,
): readonly TrackLeg[] | null {
  if (settings.track)
    return [...settings.track].sort(
      (a, b) => (a.from?.epochMs ?? -Infinity) - (b.from?.epochMs ?? -Infinity),
    );
  const known = observations
    .filter((o) => o.course && o.speed)
    .sort((a, b) => a.instant.compare(b.instant));
  if (known.length === 0) return null;
  return known.map((o) => ({
    from: o.instant,
    courseDeg: (o.course as NonNullable<typeof o.course>).degrees,
    speedKn: (o.speed as NonNullable<typeof o.speed>).knots,
  }));
}

/** The run from `from` to `to`, with what one standard deviation of each of its errors does. */
export function runBetween(
  track: readonly TrackLeg[] | null,
  settings: FixSettings,
  from: Instant,
  to: Instant,
): Run {
  const hours = to.minus(from).hours;
  const legs: Leg[] = [];
  let [north, east, unitNorth, unitEast] = [0, 0, 0, 0];
  for (const piece of pieces(track, from, to)) {
    const course = (piece.courseDeg * Math.PI) / 180;
    const miles = piece.speedKn * piece.hours;
    legs.push({ courseDeg: piece.courseDeg, distanceM: miles * METRES_PER_MILE });
    north += miles * Math.cos(course);
    east += miles * Math.sin(course);
    unitNorth += piece.hours * Math.cos(course);
    unitEast += piece.hours * Math.sin(course);
  }
  const { current } = settings;
  if (current && hours !== 0)
    legs.push({ courseDeg: current.setDeg, distanceM: current.driftKn * hours * METRES_PER_MILE });
  const turn = (settings.courseSigmaDeg * Math.PI) / 180;
  const errors: RunError[] = [
    { key: 'course', northArcmin: -east * turn, eastArcmin: north * turn },
    {
      key: 'speed',
      northArcmin: unitNorth * settings.speedSigmaKn,
      eastArcmin: unitEast * settings.speedSigmaKn,
    },
    { key: 'current north', northArcmin: hours * settings.currentSigmaKn, eastArcmin: 0 },
    { key: 'current east', northArcmin: 0, eastArcmin: hours * settings.currentSigmaKn },
  ].filter((e) => e.northArcmin !== 0 || e.eastArcmin !== 0);
  return { legs: legs.filter((l) => l.distanceM !== 0), errors, hours };
}

/** The legs sailed between two times, in the order they are gone through; hours negative when going back. */
function pieces(track: readonly TrackLeg[] | null, from: Instant, to: Instant) {
  if (!track || track.length === 0) return [];
  const back = to.compare(from) < 0;
  const [early, late] = back ? [to, from] : [from, to];
  const out = track.flatMap((leg, i) => {
    // The first leg also holds before its beginning, the last one for ever.
    const begins = i === 0 ? early : laterOf(leg.from ?? early, early);
    const end = track[i + 1]?.from;
    const ends = end ? earlierOf(end, late) : late;
    const hours = ends.minus(begins).hours;
    return hours > 0
      ? [{ courseDeg: leg.courseDeg, speedKn: leg.speedKn, hours: back ? -hours : hours }]
      : [];
  });
  return back ? out.reverse() : out;
}

const laterOf = (a: Instant, b: Instant): Instant => (a.compare(b) >= 0 ? a : b);
const earlierOf = (a: Instant, b: Instant): Instant => (a.compare(b) <= 0 ? a : b);

/** A position carried along a run. */
export function carriedTo(place: Position, run: Run): Position {
  const p = placeOfSight(place.latDeg, place.lonDeg, run.legs);
  return Position.degrees(p.latDeg, p.lonDeg);
}
