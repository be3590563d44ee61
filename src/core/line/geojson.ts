import { OutOfRangeError } from '../units/errors.js';
import { wrap180 } from './trig.js';

/** Longitude then latitude in degrees, as RFC 7946 (2016) sec. 3.1.1 orders them. */
export type Coordinate = readonly [lonDeg: number, latDeg: number];

/** A line as RFC 7946 has it, in pieces where it crosses the date line. */
export interface LineGeometry {
  readonly type: 'LineString' | 'MultiLineString';
  readonly coordinates: readonly Coordinate[] | readonly (readonly Coordinate[])[];
}
/** An area as RFC 7946 has it: rings of longitude and latitude, degrees. */
export interface AreaGeometry {
  readonly type: 'Polygon' | 'MultiPolygon';
  readonly coordinates:
    readonly (readonly Coordinate[])[] | readonly (readonly (readonly Coordinate[])[])[];
}
/** A point, longitude before latitude, degrees (RFC 7946). */
export interface PointGeometry {
  readonly type: 'Point';
  readonly coordinates: Coordinate;
}
/** A shape with its properties (RFC 7946). */
export interface Feature {
  readonly type: 'Feature';
  readonly geometry: LineGeometry | AreaGeometry | PointGeometry;
  readonly properties: Readonly<Record<string, unknown>>;
}
/** Several features (RFC 7946). */
export interface FeatureCollection {
  readonly type: 'FeatureCollection';
  readonly features: readonly Feature[];
}

interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** 1e-7° is 11 mm: as RFC 7946 sec. 11.2 advises, no digits that mean nothing. */
const round = (deg: number): number => Math.round(deg * 1e7) / 1e7;
const coordinate = (lonDeg: number, latDeg: number): Coordinate => [round(lonDeg), round(latDeg)];

/** Longitudes made continuous: each within half a turn of the one before. */
function unrolled(places: readonly Place[]): Place[] {
  let before = places[0]?.lonDeg ?? 0;
  return places.map((p) => {
    before += wrap180(p.lonDeg - before);
    return { latDeg: p.latDeg, lonDeg: before };
  });
}

/**
 * A line through the places, cut at the antimeridian (RFC 7946 sec. 3.1.9).
 * @throws OutOfRangeError with fewer than two places
 */
export function lineGeometry(places: readonly Place[]): LineGeometry {
  if (places.length < 2) throw new OutOfRangeError('a line needs at least two places');
  const pieces: Coordinate[][] = [[]];
  let shift: number | undefined;
  let before: Place | undefined;
  for (const p of unrolled(places)) {
    const turns = Math.floor((p.lonDeg + 180) / 360) * 360;
    shift ??= turns;
    if (before && turns !== shift) {
      const east = turns > shift;
      const edge = (east ? turns : shift) - 180;
      const fraction = (edge - before.lonDeg) / (p.lonDeg - before.lonDeg);
      const lat = before.latDeg + fraction * (p.latDeg - before.latDeg);
      pieces.at(-1)?.push(coordinate(east ? 180 : -180, lat));
      pieces.push([coordinate(east ? -180 : 180, lat)]);
      shift = turns;
    }
    pieces.at(-1)?.push(coordinate(p.lonDeg - shift, p.latDeg));
    before = p;
  }
  const whole = pieces.filter((piece) => piece.length > 1);
  return whole.length === 1
    ? { type: 'LineString', coordinates: whole[0] as Coordinate[] }
    : { type: 'MultiLineString', coordinates: whole };
}

/**
 * The area inside a ring of places (not closed by repetition), counter-clockwise as RFC 7946 sec. 3.1.6 wants, cut at the
 * antimeridian; a ring that goes round a pole is closed along that pole.
 * @throws OutOfRangeError with fewer than three places
 */
export function areaGeometry(places: readonly Place[]): AreaGeometry {
  if (places.length < 3) throw new OutOfRangeError('an area needs at least three places');
  let ring = unrolled(places);
  const first = ring[0] as Place;
  const last = ring.at(-1) as Place;
  const closing = last.lonDeg + wrap180(first.lonDeg - last.lonDeg) - first.lonDeg;
  if (Math.abs(closing) > 180) {
    const pole = ring.reduce((sum, p) => sum + p.latDeg, 0) >= 0 ? 90 : -90;
    ring = [
      ...ring,
      { latDeg: first.latDeg, lonDeg: first.lonDeg + closing },
      { latDeg: pole, lonDeg: first.lonDeg + closing },
      { latDeg: pole, lonDeg: first.lonDeg },
    ];
  }
  if (signedArea(ring) < 0) ring.reverse();
  const lons = ring.map((p) => p.lonDeg);
  const from = Math.floor((Math.min(...lons) + 180) / 360);
  const to = Math.ceil((Math.max(...lons) + 180) / 360);
  const parts: Coordinate[][][] = [];
  for (let turn = from; turn < to; turn++) {
    const west = turn * 360 - 180;
    const piece = clip(clip(ring, west, 1), west + 360, -1);
    if (piece.length < 3) continue;
    const out = piece.map((p) => coordinate(p.lonDeg - turn * 360, p.latDeg));
    parts.push([[...out, out[0] as Coordinate]]);
  }
  return parts.length === 1
    ? { type: 'Polygon', coordinates: parts[0] as Coordinate[][] }
    : { type: 'MultiPolygon', coordinates: parts };
}

function signedArea(ring: readonly Place[]): number {
  return ring.reduce((sum, p, i) => {
    const q = ring[(i + 1) % ring.length] as Place;
    return sum + p.lonDeg * q.latDeg - q.lonDeg * p.latDeg;
  }, 0);
}

/** Keeps what lies east (side 1) or west (side −1) of a meridian (I. Sutherland, G. Hodgman, CACM 17(1), 1974). */
function clip(ring: readonly Place[], meridian: number, side: 1 | -1): Place[] {
  const inside = (p: Place) => side * (p.lonDeg - meridian) >= 0;
  return ring.flatMap((p, i) => {
    const q = ring[(i + 1) % ring.length] as Place;
    const kept = inside(p) ? [p] : [];
    if (inside(p) === inside(q)) return kept;
    const f = (meridian - p.lonDeg) / (q.lonDeg - p.lonDeg);
    return [...kept, { lonDeg: meridian, latDeg: p.latDeg + f * (q.latDeg - p.latDeg) }];
  });
}

/** A point; longitude is wrapped to ±180°. */
export function pointGeometry({ latDeg, lonDeg }: Place): PointGeometry {
  return { type: 'Point', coordinates: coordinate(lonDeg, latDeg) };
}

/** A shape with its properties. */
export function feature(
  geometry: Feature['geometry'],
  properties: Readonly<Record<string, unknown>>,
): Feature {
  return { type: 'Feature', geometry, properties };
}
