import { finite } from './errors.js';
import { formatAngle } from './angle-format.js';

const DEGREES_PER_RADIAN = 180 / Math.PI;

/**
 * An angle, immutable. Signs: north +, east +, a correction to be added +. A number never stands for an
 * angle by itself: name the unit. An angle made from text keeps that text in `text`.
 */
export class Angle {
  protected constructor(
    /** Decimal degrees, unwrapped: 370 stays 370. */
    readonly degrees: number,
    /** What the user wrote, when the angle came from text. */
    readonly text?: string,
  ) {
    Object.freeze(this);
  }

  static readonly zero = new Angle(0);
  /** @param degrees decimal degrees, any finite number. @throws OutOfRangeError on NaN or infinity. */
  static degrees(degrees: number, text?: string): Angle {
    return new Angle(finite(degrees, 'an angle in degrees') + 0, text);
  }
  /** From minutes of arc. @throws OutOfRangeError on NaN or infinity */
  static arcminutes(arcminutes: number): Angle {
    return Angle.degrees(finite(arcminutes, 'an angle in minutes of arc') / 60);
  }
  /** From seconds of arc. @throws OutOfRangeError on NaN or infinity */
  static arcseconds(arcseconds: number): Angle {
    return Angle.degrees(finite(arcseconds, 'an angle in seconds of arc') / 3600);
  }
  /** From radians. @throws OutOfRangeError on NaN or infinity */
  static radians(radians: number): Angle {
    return Angle.degrees(finite(radians, 'an angle in radians') * DEGREES_PER_RADIAN);
  }
  /** From hours of right ascension or hour angle, 15° each. @throws OutOfRangeError on NaN or infinity */
  static hours(hours: number): Angle {
    return Angle.degrees(finite(hours, 'an angle in hours') * 15);
  }

  /** In minutes of arc, signed. */
  get arcminutes(): number {
    return this.degrees * 60;
  }
  /** In seconds of arc, signed. */
  get arcseconds(): number {
    return this.degrees * 3600;
  }
  /** In radians, signed. */
  get radians(): number {
    return this.degrees / DEGREES_PER_RADIAN;
  }
  /** In hours of 15°, signed. */
  get hours(): number {
    return this.degrees / 15;
  }

  /** The sum, unwrapped. */
  plus(other: Angle): Angle {
    return Angle.degrees(this.degrees + other.degrees);
  }
  /** The difference, this less the other, unwrapped. */
  minus(other: Angle): Angle {
    return Angle.degrees(this.degrees - other.degrees);
  }
  /** So many times the angle. */
  times(factor: number): Angle {
    return Angle.degrees(this.degrees * factor);
  }
  /** The angle with the other sign. */
  negated(): Angle {
    return Angle.degrees(-this.degrees);
  }
  /** The angle without its sign. */
  abs(): Angle {
    return Angle.degrees(Math.abs(this.degrees));
  }
  /** The same direction in 0° (included) to 360° (excluded). */
  normalized(): Angle {
    const rest = this.degrees % 360;
    const wrapped = rest < 0 ? rest + 360 : rest;
    return Angle.degrees(wrapped >= 360 ? 0 : wrapped);
  }
  /** The same direction in −180° (excluded) to 180° (included). */
  signed(): Angle {
    const wrapped = this.normalized().degrees;
    return Angle.degrees(wrapped > 180 ? wrapped - 360 : wrapped);
  }
  /** Negative, nought or positive in degrees, for sorting from least to greatest. */
  compare(other: Angle): number {
    return this.degrees - other.degrees;
  }

  /** Degrees and minutes as a navigator writes them, rounded once: `34°17.6′`, `−0°00.4′`. */
  toString(): string {
    return formatAngle(this.degrees);
  }
  /** `{ degrees, text? }`, stable; `text` only when the angle came from text. */
  toJSON(): { degrees: number; text?: string } {
    return this.text === undefined
      ? { degrees: this.degrees }
      : { degrees: this.degrees, text: this.text };
  }
}
