/**
 * What the telescope of a sextant shows. The direct ray comes straight in; the other is turned by two mirrors, which is
 * a rotation about their line of meeting, square to the plane of the arc, by twice the angle between them: exact, for any
 * tilt. Angles in degrees unless the name says otherwise.
 */
export interface Pointing {
  /** Direction of the telescope: from the body's azimuth, to the right +; and above the level, degrees. */
  readonly panDeg: number;
  readonly pitchDeg: number;
  /** Tilt of the sextant about the telescope, its top to the right +. */
  readonly tiltDeg: number;
}

/** A direction: to the right of the body's azimuth +, and above the level. */
export interface Seen {
  readonly rightDeg: number;
  readonly upDeg: number;
}

/** Where a ray meets the field: tangents from its middle, as minutes of arc there; right and up in the sextant's frame. */
export interface FieldPoint {
  xArcmin: number;
  yArcmin: number;
}

const RAD = Math.PI / 180;
const ARCMIN = 60 / RAD;

/**
 * @param turnedDeg angle between the direct and the reflected ray: the reading less the index error; 0 for the direct ray
 * @returns null for a ray that comes from behind the field
 */
export function fieldPoint(seen: Seen, pointing: Pointing, turnedDeg: number): FieldPoint | null {
  const right = (seen.rightDeg - pointing.panDeg) * RAD;
  const up = seen.upDeg * RAD;
  // Forward, right and up of the level frame that looks where the telescope is panned to.
  const f = Math.cos(up) * Math.cos(right);
  const r = Math.cos(up) * Math.sin(right);
  const z = Math.sin(up);
  const pitch = pointing.pitchDeg * RAD;
  const along = f * Math.cos(pitch) + z * Math.sin(pitch);
  const above = z * Math.cos(pitch) - f * Math.sin(pitch);
  const tilt = pointing.tiltDeg * RAD;
  const across = r * Math.cos(tilt) - above * Math.sin(tilt);
  const inPlane = above * Math.cos(tilt) + r * Math.sin(tilt);
  const turn = turnedDeg * RAD;
  const forward = along * Math.cos(turn) + inPlane * Math.sin(turn);
  if (forward <= 0.2) return null;
  return {
    xArcmin: (across / forward) * ARCMIN,
    yArcmin: ((inPlane * Math.cos(turn) - along * Math.sin(turn)) / forward) * ARCMIN,
  };
}

/**
 * The reading of a sextant tilted out of the vertical that still brings the body to the horizon: too great, which is why
 * it is rocked and the lowest point taken. From the right-angled spherical triangle: sin h = sin s cos β.
 * @returns degrees
 */
export const tiltedAngle = (altDeg: number, tiltDeg: number): number =>
  Math.asin(Math.min(1, Math.sin(altDeg * RAD) / Math.cos(tiltDeg * RAD))) / RAD;

/**
 * The same with the sextant upside down, its telescope on the body and the horizon brought up to it: tan s = tan h / cos β,
 * from the right-angled triangle whose corner β lies at the body.
 * @returns degrees
 */
export const invertedTiltedAngle = (altDeg: number, tiltDeg: number): number =>
  Math.atan2(Math.sin(altDeg * RAD), Math.cos(altDeg * RAD) * Math.cos(tiltDeg * RAD)) / RAD;
