import { feature } from 'topojson-client';
import type { GeometryObject, Topology } from 'topojson-specification';
import type { Coast } from '../../../views/chart/chart-svg.js';

/** All rings of the land of a world-atlas file (Natural Earth, public domain). */
export function landRings(topology: Topology): Coast {
  const land = topology.objects['land'] as GeometryObject | undefined;
  if (!land) return [];
  const shape = feature(topology, land) as unknown as {
    features?: { geometry: GeoJSON.Geometry }[];
    geometry?: GeoJSON.Geometry;
  };
  const geometries = shape.features?.map((f) => f.geometry) ?? [shape.geometry];
  return geometries.flatMap((geometry) => {
    const polygons =
      geometry?.type === 'MultiPolygon'
        ? geometry.coordinates
        : geometry?.type === 'Polygon'
          ? [geometry.coordinates]
          : [];
    return polygons.flatMap((rings) =>
      rings.map((ring) => ring.map(([lon, lat]) => ({ latDeg: lat ?? 0, lonDeg: lon ?? 0 }))),
    );
  });
}
