import type { Fix } from '../../core/fix/index.js';
import {
  feature,
  lineGeometry,
  pointGeometry,
  type Feature,
  type FeatureCollection,
  type PositionLine,
} from '../../core/line/index.js';
import type { Track } from './track.js';

/** What can be laid on a map. */
export type Mapped = Fix | PositionLine | Track;

/** Fixes, position lines and tracks as one GeoJSON FeatureCollection (RFC 7946), cut at the antimeridian. */
export function toGeoJson(...items: readonly Mapped[]): FeatureCollection {
  return { type: 'FeatureCollection', features: items.flatMap(featuresOf) };
}

function featuresOf(item: Mapped): readonly Feature[] {
  if ('points' in item && Array.isArray(item.points)) return [trackFeature(item as Track)];
  const made = (item as Fix | PositionLine).toGeoJson();
  return 'features' in made ? made.features : [made];
}

function trackFeature(track: Track): Feature {
  const { points, name } = track;
  const times = points.map((p) => new Date(p.utcMs).toISOString());
  const [only] = points;
  const properties = { kind: 'track', ...(name ? { name } : {}), times };
  if (points.length === 1 && only) return feature(pointGeometry(only), properties);
  return feature(lineGeometry(points), properties);
}
