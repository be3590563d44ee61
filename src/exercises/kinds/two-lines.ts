import { Angle, type Length, Position } from '../../core/units/index.js';

/** A position line from a point: how far and which way its foot lies. */
export interface PlottedLine {
  readonly intercept: Length;
  readonly azimuth: Angle;
}

/**
 * Where straight position lines plotted from one point meet, by least squares (two lines: their crossing), on a
 * plotting sheet: miles north and east of the point, longitude opened by the cosine of the latitude.
 * Source: position from intercepts, Nautical Almanac, sight reduction procedures, without its iteration.
 * @throws RangeError when the lines are parallel to within 2°
 */
export function meetingPoint(from: Position, lines: readonly PlottedLine[]): Position {
  let [nn, ne, ee, np, ep] = [0, 0, 0, 0, 0];
  for (const { intercept, azimuth } of lines) {
    const [n, e] = [Math.cos(azimuth.radians), Math.sin(azimuth.radians)];
    const p = intercept.nauticalMiles;
    nn += n * n;
    ne += n * e;
    ee += e * e;
    np += n * p;
    ep += e * p;
  }
  const determinant = nn * ee - ne * ne;
  if (determinant < Math.sin(Angle.degrees(2).radians) ** 2)
    throw new RangeError('the position lines run side by side and do not cross');
  const north = (ee * np - ne * ep) / determinant;
  const east = (nn * ep - ne * np) / determinant;
  const open = Math.cos(from.latitude.radians);
  return Position.degrees(from.latDeg + north / 60, from.lonDeg + east / (60 * open));
}
