import { horizontalKernel } from './horizontal.js';

const RAD = Math.PI / 180;

/** A direction on the sky by GHA and declination. */
export interface Direction {
  readonly gha: { readonly degrees: number };
  readonly declination: { readonly degrees: number };
}

/** Angle between two directions, radians. */
export function separation(a: Direction, b: Direction): number {
  const [da, db] = [a.declination.degrees * RAD, b.declination.degrees * RAD];
  const dh = (a.gha.degrees - b.gha.degrees) * RAD;
  const across = Math.hypot(
    Math.cos(db) * Math.sin(dh),
    Math.cos(da) * Math.sin(db) - Math.sin(da) * Math.cos(db) * Math.cos(dh),
  );
  return Math.atan2(
    across,
    Math.sin(da) * Math.sin(db) + Math.cos(da) * Math.cos(db) * Math.cos(dh),
  );
}

/** Angle at a body between the zenith and the Sun, degrees 0–180. */
export function zenithToSun(
  latDeg: number,
  lonDeg: number,
  body: Direction,
  sun: Direction,
): number {
  const at = (d: Direction) =>
    horizontalKernel(latDeg, lonDeg, d.gha.degrees, d.declination.degrees);
  const [p, s] = [at(body), at(sun)];
  const dz = (s.azimuthDeg - p.azimuthDeg) * RAD;
  const [hp, hs] = [p.altDeg * RAD, s.altDeg * RAD];
  const up = Math.cos(hp) * Math.sin(hs) - Math.sin(hp) * Math.cos(hs) * Math.cos(dz);
  const side = Math.cos(hs) * Math.sin(dz);
  return Math.abs(Math.atan2(side, up)) / RAD;
}
