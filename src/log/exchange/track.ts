import { EntryError, Instant, OutOfRangeError, Position } from '../../core/units/index.js';
import { rhumbBetweenKernel, rhumbDestinationKernel } from '../../core/line/rhumb-kernel.js';
import { refuseFileName } from '../file-name.js';
import { readGpxTrack } from './read-gpx.js';

/** One point of a track: a place and when. */
export interface TrackPoint {
  /** Milliseconds of UTC since 1970. */
  readonly utcMs: number;
  /** North positive. */
  readonly latDeg: number;
  /** East positive. */
  readonly lonDeg: number;
}

/** How long a track may be silent before the place in between counts as not known. */
const LONGEST_GAP_MS = 2 * 3_600_000;

/**
 * A known track: points in time, joined by rhumb lines on WGS 84 sailed at even speed. Where there is no point
 * within the longest gap, the place is not known: nothing is carried on beyond the ends.
 */
export class Track {
  /** @throws EntryError unless there are points in order of time */
  constructor(
    readonly points: readonly TrackPoint[],
    readonly name: string | null = null,
    readonly longestGapMs: number = LONGEST_GAP_MS,
  ) {
    if (points.length === 0) throw new EntryError('The track has no point with a time.', '');
    points.forEach((p, i) => {
      if (i > 0 && p.utcMs < (points[i - 1]?.utcMs ?? 0))
        throw new EntryError(
          `The track goes back in time at point ${i + 1}, ${new Date(p.utcMs).toISOString()}.`,
          '',
        );
    });
    Object.freeze(this);
  }

  /** From GPX 1.1: all track points that carry a time. @throws EntryError when the text is no GPX or holds none */
  static fromGpx(text: string): Track {
    refuseFileName(text, 'Track.fromGpx');
    const { points, name } = readGpxTrack(text);
    return new Track(points, name);
  }

  /** Time of the first point. */
  get begins(): Instant {
    return Instant.fromEpochMs(this.points[0]?.utcMs ?? 0);
  }
  /** Time of the last point. */
  get ends(): Instant {
    return Instant.fromEpochMs(this.points.at(-1)?.utcMs ?? 0);
  }

  /** Where the track was, or null where it does not say. */
  at(instant: Instant): Position | null {
    const place = this.placeAt(instant.epochMs);
    return place && Position.degrees(place.latDeg, place.lonDeg);
  }

  /** The same with plain numbers. @param utcMs milliseconds of UTC since 1970 */
  placeAt(utcMs: number): { latDeg: number; lonDeg: number } | null {
    if (!Number.isFinite(utcMs)) throw new OutOfRangeError('a time must be a finite number');
    const i = this.lastAtOrBefore(utcMs);
    const [a, b] = [this.points[i], this.points[i + 1]];
    if (!a) return null;
    if (a.utcMs === utcMs) return { latDeg: a.latDeg, lonDeg: a.lonDeg };
    if (!b || b.utcMs - a.utcMs > this.longestGapMs) return null;
    const { courseDeg, distanceM } = rhumbBetweenKernel(a.latDeg, a.lonDeg, b.latDeg, b.lonDeg);
    if (distanceM === 0) return { latDeg: a.latDeg, lonDeg: a.lonDeg };
    const part = (utcMs - a.utcMs) / (b.utcMs - a.utcMs);
    return rhumbDestinationKernel(a.latDeg, a.lonDeg, courseDeg, distanceM * part);
  }

  private lastAtOrBefore(utcMs: number): number {
    let [low, high] = [-1, this.points.length - 1];
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if ((this.points[middle]?.utcMs ?? Infinity) <= utcMs) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** `Track "Quillfeather": 385 points, 2027-05-08 06:00:00 UTC to 2027-05-24 06:00:00 UTC`. */
  toString(): string {
    const name = this.name ? ` "${this.name}"` : '';
    return `Track${name}: ${this.points.length} points, ${this.begins.toString()} to ${this.ends.toString()}`;
  }
  /** The points as plain data, degrees and milliseconds UTC. */
  toJSON(): unknown {
    return { name: this.name, points: this.points };
  }
}
