import { atan2Deg, radians, wrap180 } from '../line/trig.js';

type Vector = readonly [number, number, number];

const unit = (latDeg: number, lonDeg: number): Vector => {
  const [lat, lon] = [radians(latDeg), radians(lonDeg)];
  return [Math.cos(lat) * Math.cos(lon), Math.cos(lat) * Math.sin(lon), Math.sin(lat)];
};
const toDegrees = ([x, y, z]: Vector) => ({
  latDeg: atan2Deg(z, Math.hypot(x, y)),
  lonDeg: wrap180(atan2Deg(y, x)),
});

/** Moves along a great circle by minutes of arc north and east at the start: no trouble at the poles. */
export function move(latDeg: number, lonDeg: number, northArcmin: number, eastArcmin: number) {
  const arc = radians(Math.hypot(northArcmin, eastArcmin) / 60);
  if (arc === 0) return { latDeg, lonDeg: wrap180(lonDeg) };
  const [lat, lon, bearing] = [
    radians(latDeg),
    radians(lonDeg),
    Math.atan2(eastArcmin, northArcmin),
  ];
  const [cn, ce] = [Math.cos(bearing), Math.sin(bearing)];
  const north: Vector = [
    -Math.sin(lat) * Math.cos(lon),
    -Math.sin(lat) * Math.sin(lon),
    Math.cos(lat),
  ];
  const east: Vector = [-Math.sin(lon), Math.cos(lon), 0];
  const p = unit(latDeg, lonDeg);
  const mix = (k: 0 | 1 | 2) =>
    p[k] * Math.cos(arc) + (north[k] * cn + east[k] * ce) * Math.sin(arc);
  return toDegrees([mix(0), mix(1), mix(2)]);
}

/** Minutes of arc north and east (great-circle distance and initial bearing) from one place to another. */
export function offset(latDeg: number, lonDeg: number, lat2Deg: number, lon2Deg: number) {
  const [lat, lon] = [radians(latDeg), radians(lonDeg)];
  const q = unit(lat2Deg, lon2Deg);
  const north =
    -Math.sin(lat) * (Math.cos(lon) * q[0] + Math.sin(lon) * q[1]) + Math.cos(lat) * q[2];
  const east = -Math.sin(lon) * q[0] + Math.cos(lon) * q[1];
  const up = Math.cos(lat) * (Math.cos(lon) * q[0] + Math.sin(lon) * q[1]) + Math.sin(lat) * q[2];
  const flat = Math.hypot(north, east);
  if (flat === 0) return { northArcmin: 0, eastArcmin: 0 };
  const arcmin = atan2Deg(flat, up) * 60;
  return { northArcmin: (arcmin * north) / flat, eastArcmin: (arcmin * east) / flat };
}

/**
 * The two points at given zenith distances from two geographical positions, or none where the circles do not meet.
 * @param a, b geographical position in degrees and zenith distance in degrees
 * Source: plane of the radical axis of two small circles, standard vector geometry.
 */
export function circleCrossings(
  a: { latDeg: number; lonDeg: number; zenithDeg: number },
  b: { latDeg: number; lonDeg: number; zenithDeg: number },
): { latDeg: number; lonDeg: number }[] {
  const u = unit(a.latDeg, a.lonDeg);
  const v = unit(b.latDeg, b.lonDeg);
  const cosUV = u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
  const det = 1 - cosUV * cosUV;
  if (det < 1e-14) return [];
  const [ca, cb] = [Math.cos(radians(a.zenithDeg)), Math.cos(radians(b.zenithDeg))];
  const [s, t] = [(ca - cb * cosUV) / det, (cb - ca * cosUV) / det];
  const w = (k: 0 | 1 | 2) => s * u[k] + t * v[k];
  const base: Vector = [w(0), w(1), w(2)];
  const rest = 1 - (base[0] ** 2 + base[1] ** 2 + base[2] ** 2);
  if (rest < 0) return [];
  const k = Math.sqrt(rest / det);
  const cross: Vector = [
    u[1] * v[2] - u[2] * v[1],
    u[2] * v[0] - u[0] * v[2],
    u[0] * v[1] - u[1] * v[0],
  ];
  return [1, -1].map((sign) =>
    toDegrees([
      base[0] + sign * k * cross[0],
      base[1] + sign * k * cross[1],
      base[2] + sign * k * cross[2],
    ]),
  );
}
