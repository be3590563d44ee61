import { Angle } from './angle.js';
import { formatLatitude, formatLongitude } from './angle-format.js';
import { latitude, longitude } from './angle-text.js';
import { writtenAs } from './written-angle.js';
import { EntryError, finite, OutOfRangeError } from './errors.js';
import { valueOrText } from './value-or-text.js';

/** A place on the Earth, WGS 84, immutable. Latitude north +, longitude east + in −180° (excluded) to 180°. */
export class Position {
  /** Prints as `19°31.0′ S`. */
  readonly latitude: Angle;
  /** Prints as `001°12.0′ W`. */
  readonly longitude: Angle;
  private constructor(
    latitude: Angle,
    longitude: Angle,
    /** What the user wrote, `[latitude, longitude]`, where it came from text. */
    readonly text?: string,
  ) {
    this.latitude = writtenAs(latitude, () => formatLatitude(latitude.degrees));
    this.longitude = writtenAs(longitude, () => formatLongitude(longitude.degrees));
    Object.freeze(this);
  }

  /** @param lat north positive, within ±90. @param lon east positive, any turn. @throws OutOfRangeError */
  static degrees(lat: number, lon: number): Position {
    return Position.of(
      Angle.degrees(finite(lat, 'a latitude')),
      Angle.degrees(finite(lon, 'a longitude')),
    );
  }
  /** From two angles, north and east positive; the longitude is wrapped to ±180°. @throws OutOfRangeError over 90° of latitude */
  static of(lat: Angle, lon: Angle): Position {
    if (Math.abs(lat.degrees) > 90)
      throw new OutOfRangeError(`a latitude cannot exceed 90°, and this is ${lat.degrees}°`);
    const east = lon.degrees - 360 * Math.ceil((lon.degrees - 180) / 360);
    const wrapped = east === lon.degrees ? lon : Angle.degrees(east);
    const texts = [lat.text, lon.text].filter((t) => t !== undefined);
    return texts.length === 2
      ? new Position(lat, wrapped, texts.join(', '))
      : new Position(lat, wrapped);
  }

  /** Latitude in decimal degrees, north positive, −90 to 90. */
  get latDeg(): number {
    return this.latitude.degrees;
  }
  /** Longitude in decimal degrees, east positive, −180 to 180. */
  get lonDeg(): number {
    return this.longitude.degrees;
  }
  /** `19°31.0′ S, 001°12.0′ W`. */
  toString(): string {
    return `${formatLatitude(this.latDeg)}, ${formatLongitude(this.lonDeg)}`;
  }
  /** `{ latDeg, lonDeg, text? }`, north and east positive. */
  toJSON(): { latDeg: number; lonDeg: number; text?: string } {
    const plain = { latDeg: this.latDeg, lonDeg: this.lonDeg };
    return this.text === undefined ? plain : { ...plain, text: this.text };
  }
}

/**
 * A position as a navigator writes it: `position('19°31′ S', '001°12′ W')`, both in one text, `position('19°31′ S, 001°12′ W')`,
 * or from two angles.
 * @throws EntryError on a wrong letter, 91° of latitude and the like.
 * @example
 * ```ts
 * import { position } from 'cocked-hat';
 *
 * position('19°31′ S', '001°12′ W').toString()
 * ```
 * ```text
 * '19°31.0′ S, 001°12.0′ W'
 * ```
 */
export function position(lat: string | Angle, lon?: string | Angle): Position {
  if (typeof lat === 'number' || typeof lon === 'number')
    throw new EntryError(
      `A position is read from text or angles, not from numbers. Write position('19°31′ S', '001°12′ W'), or Position.degrees(${String(lat)}, ${String(lon)}) for decimal degrees, north and east positive.`,
      `${String(lat)}, ${String(lon)}`,
    );
  const [north, east] = lon === undefined ? bothIn(String(lat)) : [lat, lon];
  return Position.of(valueOrText(Angle, north, latitude), valueOrText(Angle, east, longitude));
}

/** Latitude and longitude of one text, letters after the figures or before them. */
function bothIn(text: string): [string, string] {
  const parts =
    /^\s*([^NSEW]*[NS])[\s,;/]+([^NSEW]*[EW])\s*$/i.exec(text) ??
    /^\s*([NS][^NSEW]*?)[\s,;/]+([EW][^NSEW]*)$/i.exec(text);
  if (!parts)
    throw new EntryError(
      "A position in one text is a latitude with N or S, then a longitude with E or W. Write position('19°31′ S, 001°12′ W').",
      text,
    );
  return [parts[1]!, parts[2]!];
}
