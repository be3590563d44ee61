import { Angle } from '../units/angle.js';
import { EntryError, OutOfRangeError } from '../units/errors.js';

/** An azimuth angle as the tables name it: from north or south, towards east or west, 0–180°. */
export interface AzimuthAngle {
  readonly from: 'N' | 'S';
  readonly angle: Angle;
  readonly towards: 'E' | 'W';
  /** `N 101.5° W`. */
  readonly text: string;
}

/**
 * The azimuth angle of a true azimuth, counted from the elevated pole: N in north latitude (0 included), S in south.
 * @param azimuth true azimuth, any turn @param latDeg north positive
 */
export function azimuthAngle(azimuth: Angle, latDeg: number): AzimuthAngle {
  const zn = azimuth.normalized().degrees;
  const from = latDeg < 0 ? 'S' : 'N';
  const fromPole = from === 'N' ? zn : (zn + 180) % 360;
  const east = fromPole <= 180;
  // Turning from south, east lies the other way about.
  const towards = from === 'N' ? (east ? 'E' : 'W') : east ? 'W' : 'E';
  const angle = Angle.degrees(east ? fromPole : 360 - fromPole);
  return { from, angle, towards, text: `${from} ${angle.degrees.toFixed(1)}° ${towards}` };
}

/**
 * The true azimuth, 0° to 360°, of an azimuth angle by the naming rule: N…E Zn = Z; N…W Zn = 360° − Z; S…E Zn = 180° − Z;
 * S…W Zn = 180° + Z. Source: Bowditch, *American Practical Navigator*, NGA Pub. 9, azimuth angle.
 * @param angle 0–180°
 * @throws OutOfRangeError when it is not within them
 */
export function trueAzimuth(from: 'N' | 'S', angle: Angle, towards: 'E' | 'W'): Angle {
  const z = angle.degrees;
  if (!(z >= 0 && z <= 180))
    throw new OutOfRangeError(`an azimuth angle lies between 0° and 180°, not ${z}°`);
  if (from === 'N') return Angle.degrees(towards === 'E' ? z : 360 - z).normalized();
  return Angle.degrees(towards === 'E' ? 180 - z : 180 + z).normalized();
}

/**
 * Reads `N 101.5° W` into the true azimuth, 0° to 360°.
 * @throws EntryError showing the right form
 */
export function azimuthFromName(text: string): Angle {
  const m = /^\s*([NS])\s*(\d+(?:\.\d+)?)\s*°?\s*(?:(\d+(?:\.\d+)?)\s*['′])?\s*([EW])\s*$/i.exec(
    text,
  );
  if (!m) throw new EntryError("an azimuth angle is written like 'N 101.5° W'", text);
  const degrees = Number(m[2]) + Number(m[3] ?? 0) / 60;
  if (degrees > 180) throw new EntryError('an azimuth angle lies between 0° and 180°', text);
  return trueAzimuth(
    (m[1] as string).toUpperCase() as 'N' | 'S',
    Angle.degrees(degrees),
    (m[4] as string).toUpperCase() as 'E' | 'W',
  );
}
