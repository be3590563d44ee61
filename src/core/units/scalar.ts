import { finite } from './errors.js';

const METRES_PER_FOOT = 0.3048;
const METRES_PER_NAUTICAL_MILE = 1852;
const HPA_PER_INCH_OF_MERCURY = 33.8638866667;

/** A length or distance, immutable; made with `metres(2.6)`, `feet(9)`, `nauticalMiles(3.1)`. */
export class Length {
  private constructor(
    readonly metres: number,
    readonly text?: string,
  ) {
    Object.freeze(this);
  }
  /** From metres. @throws OutOfRangeError on NaN or infinity */
  static metres(metres: number, text?: string): Length {
    return new Length(finite(metres, 'a length in metres') + 0, text);
  }
  /** From feet of 0.3048 m. @throws OutOfRangeError on NaN or infinity */
  static feet(feet: number, text?: string): Length {
    return Length.metres(finite(feet, 'a length in feet') * METRES_PER_FOOT, text);
  }
  /** From nautical miles of 1852 m. @throws OutOfRangeError on NaN or infinity */
  static nauticalMiles(miles: number, text?: string): Length {
    return Length.metres(finite(miles, 'nautical miles') * METRES_PER_NAUTICAL_MILE, text);
  }
  /** In feet of 0.3048 m. */
  get feet(): number {
    return this.metres / METRES_PER_FOOT;
  }
  /** In nautical miles of 1852 m. */
  get nauticalMiles(): number {
    return this.metres / METRES_PER_NAUTICAL_MILE;
  }
  /** The sum. */
  plus(other: Length): Length {
    return Length.metres(this.metres + other.metres);
  }
  /** The difference, this less the other. */
  minus(other: Length): Length {
    return Length.metres(this.metres - other.metres);
  }
  /** So many times as long. */
  times(factor: number): Length {
    return Length.metres(this.metres * factor);
  }
  /** As it was written, else in metres, or in miles from one nautical mile up: `2.6 m`, `70.0 nm`. */
  toString(): string {
    if (this.text !== undefined) return this.text;
    if (Math.abs(this.metres) < METRES_PER_NAUTICAL_MILE) return `${trim(this.metres, 2)} m`;
    return `${this.nauticalMiles.toFixed(1).replace('-', '−')} nm`;
  }
  /** Number and unit, with the text as written where there is one; stable. */
  toJSON(): { metres: number; text?: string } {
    return this.text === undefined
      ? { metres: this.metres }
      : { metres: this.metres, text: this.text };
  }
}

/** Air pressure, immutable; made with `hectopascals(1010)` or `inchesOfMercury(29.83)`. */
export class Pressure {
  private constructor(
    readonly hectopascals: number,
    readonly text?: string,
  ) {
    Object.freeze(this);
  }
  /** From hectopascals (millibars). @throws OutOfRangeError on NaN or infinity */
  static hectopascals(hectopascals: number, text?: string): Pressure {
    return new Pressure(finite(hectopascals, 'a pressure in hPa') + 0, text);
  }
  /** From inches of mercury at 0 °C, 33.864 hPa each. @throws OutOfRangeError on NaN or infinity */
  static inchesOfMercury(inches: number, text?: string): Pressure {
    return Pressure.hectopascals(
      finite(inches, 'inches of mercury') * HPA_PER_INCH_OF_MERCURY,
      text,
    );
  }
  /** In inches of mercury at 0 °C. */
  get inchesOfMercury(): number {
    return this.hectopascals / HPA_PER_INCH_OF_MERCURY;
  }
  /** As it was written, else with its unit. */
  toString(): string {
    return this.text ?? `${trim(this.hectopascals, 1)} hPa`;
  }
  /** Number and unit, with the text as written where there is one; stable. */
  toJSON(): { hectopascals: number; text?: string } {
    return this.text === undefined
      ? { hectopascals: this.hectopascals }
      : { hectopascals: this.hectopascals, text: this.text };
  }
}

/** Air temperature, immutable; made with `celsius(21)` or `fahrenheit(70)`. */
export class Temperature {
  private constructor(
    readonly celsius: number,
    readonly text?: string,
  ) {
    Object.freeze(this);
  }
  /** From degrees Celsius. @throws OutOfRangeError on NaN or infinity */
  static celsius(celsius: number, text?: string): Temperature {
    return new Temperature(finite(celsius, 'a temperature in °C') + 0, text);
  }
  /** From degrees Fahrenheit. @throws OutOfRangeError on NaN or infinity */
  static fahrenheit(fahrenheit: number, text?: string): Temperature {
    return Temperature.celsius(((finite(fahrenheit, 'a temperature in °F') - 32) * 5) / 9, text);
  }
  /** In degrees Fahrenheit. */
  get fahrenheit(): number {
    return (this.celsius * 9) / 5 + 32;
  }
  /** As it was written, else with its unit. */
  toString(): string {
    return this.text ?? `${trim(this.celsius, 1)} °C`;
  }
  /** Number and unit, with the text as written where there is one; stable. */
  toJSON(): { celsius: number; text?: string } {
    return this.text === undefined
      ? { celsius: this.celsius }
      : { celsius: this.celsius, text: this.text };
  }
}

/** A span of time, immutable; made with `Duration.seconds(42)` and the like. May be negative. */
export class Duration {
  private constructor(readonly seconds: number) {
    Object.freeze(this);
  }
  /** From seconds; negative is earlier. @throws OutOfRangeError on NaN or infinity */
  static seconds(seconds: number): Duration {
    return new Duration(finite(seconds, 'a duration in seconds') + 0);
  }
  /** From minutes of time. @throws OutOfRangeError on NaN or infinity */
  static minutes(minutes: number): Duration {
    return Duration.seconds(finite(minutes, 'a duration in minutes') * 60);
  }
  /** From hours. @throws OutOfRangeError on NaN or infinity */
  static hours(hours: number): Duration {
    return Duration.seconds(finite(hours, 'a duration in hours') * 3600);
  }
  /** From days of 86 400 s. @throws OutOfRangeError on NaN or infinity */
  static days(days: number): Duration {
    return Duration.seconds(finite(days, 'a duration in days') * 86400);
  }
  /** In minutes of time. */
  get minutes(): number {
    return this.seconds / 60;
  }
  /** In hours. */
  get hours(): number {
    return this.seconds / 3600;
  }
  /** In days of 86 400 s. */
  get days(): number {
    return this.seconds / 86400;
  }
  /** The sum. */
  plus(other: Duration): Duration {
    return Duration.seconds(this.seconds + other.seconds);
  }
  /** The same span the other way. */
  negated(): Duration {
    return Duration.seconds(-this.seconds);
  }
  /** `1 h 02 m 03 s`, rounded to a second, under ten seconds to a tenth (`0.5 s`); a minus sign leads a negative span. */
  toString(): string {
    const short = Math.abs(this.seconds).toFixed(1);
    if (Number(short) < 10 && !short.endsWith('.0'))
      return `${this.seconds < 0 ? '−' : ''}${short} s`;
    const total = Math.round(Math.abs(this.seconds));
    const two = (n: number) => String(n).padStart(2, '0');
    const [h, m, s] = [Math.floor(total / 3600), Math.floor(total / 60) % 60, total % 60];
    const body = h > 0 ? `${h} h ${two(m)} m ${two(s)} s` : m > 0 ? `${m} m ${two(s)} s` : `${s} s`;
    return this.seconds < 0 && total > 0 ? `−${body}` : body;
  }
  /** Number and unit, with the text as written where there is one; stable. */
  toJSON(): { seconds: number } {
    return { seconds: this.seconds };
  }
}

/** Speed through the water or over the ground, immutable; made with `knots(5.2)`. */
export class Speed {
  private constructor(
    readonly knots: number,
    readonly text?: string,
  ) {
    Object.freeze(this);
  }
  /** From knots, nautical miles an hour. @throws OutOfRangeError on NaN or infinity */
  static knots(knots: number, text?: string): Speed {
    return new Speed(finite(knots, 'a speed in knots') + 0, text);
  }
  /** As it was written, else with its unit. */
  toString(): string {
    return this.text ?? `${trim(this.knots, 1)} kn`;
  }
  /** Number and unit, with the text as written where there is one; stable. */
  toJSON(): { knots: number; text?: string } {
    return this.text === undefined ? { knots: this.knots } : { knots: this.knots, text: this.text };
  }
}

/** A length in metres: `metres(2.6)`. @throws OutOfRangeError on NaN or infinity */
export const metres = (value: number): Length => Length.metres(value);
/** A length in feet of 0.3048 m: `feet(9)`. @throws OutOfRangeError on NaN or infinity */
export const feet = (value: number): Length => Length.feet(value);
/** A distance in nautical miles of 1852 m: `nauticalMiles(3.1)`. @throws OutOfRangeError on NaN or infinity */
export const nauticalMiles = (value: number): Length => Length.nauticalMiles(value);
/** A pressure in hPa (millibars): `hectopascals(1010)`. @throws OutOfRangeError on NaN or infinity */
export const hectopascals = (value: number): Pressure => Pressure.hectopascals(value);
/** A pressure in inches of mercury: `inchesOfMercury(29.83)`. @throws OutOfRangeError on NaN or infinity */
export const inchesOfMercury = (value: number): Pressure => Pressure.inchesOfMercury(value);
/** A temperature in °C: `celsius(21)`. @throws OutOfRangeError on NaN or infinity */
export const celsius = (value: number): Temperature => Temperature.celsius(value);
/** A temperature in °F: `fahrenheit(70)`. @throws OutOfRangeError on NaN or infinity */
export const fahrenheit = (value: number): Temperature => Temperature.fahrenheit(value);
/** A speed in knots: `knots(5.2)`. @throws OutOfRangeError on NaN or infinity */
export const knots = (value: number): Speed => Speed.knots(value);

/** At most `decimals` decimals, trailing zeros dropped, a true minus sign. */
function trim(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)) + 0).replace('-', '−');
}
