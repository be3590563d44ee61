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
  static metres(metres: number, text?: string): Length {
    return new Length(finite(metres, 'a length in metres') + 0, text);
  }
  static feet(feet: number, text?: string): Length {
    return Length.metres(finite(feet, 'a length in feet') * METRES_PER_FOOT, text);
  }
  static nauticalMiles(miles: number, text?: string): Length {
    return Length.metres(finite(miles, 'nautical miles') * METRES_PER_NAUTICAL_MILE, text);
  }
  get feet(): number {
    return this.metres / METRES_PER_FOOT;
  }
  get nauticalMiles(): number {
    return this.metres / METRES_PER_NAUTICAL_MILE;
  }
  plus(other: Length): Length {
    return Length.metres(this.metres + other.metres);
  }
  minus(other: Length): Length {
    return Length.metres(this.metres - other.metres);
  }
  times(factor: number): Length {
    return Length.metres(this.metres * factor);
  }
  toString(): string {
    return this.text ?? `${trim(this.metres, 2)} m`;
  }
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
  static hectopascals(hectopascals: number, text?: string): Pressure {
    return new Pressure(finite(hectopascals, 'a pressure in hPa') + 0, text);
  }
  static inchesOfMercury(inches: number, text?: string): Pressure {
    return Pressure.hectopascals(
      finite(inches, 'inches of mercury') * HPA_PER_INCH_OF_MERCURY,
      text,
    );
  }
  get inchesOfMercury(): number {
    return this.hectopascals / HPA_PER_INCH_OF_MERCURY;
  }
  toString(): string {
    return this.text ?? `${trim(this.hectopascals, 1)} hPa`;
  }
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
  static celsius(celsius: number, text?: string): Temperature {
    return new Temperature(finite(celsius, 'a temperature in °C') + 0, text);
  }
  static fahrenheit(fahrenheit: number, text?: string): Temperature {
    return Temperature.celsius(((finite(fahrenheit, 'a temperature in °F') - 32) * 5) / 9, text);
  }
  get fahrenheit(): number {
    return (this.celsius * 9) / 5 + 32;
  }
  toString(): string {
    return this.text ?? `${trim(this.celsius, 1)} °C`;
  }
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
  static seconds(seconds: number): Duration {
    return new Duration(finite(seconds, 'a duration in seconds') + 0);
  }
  static minutes(minutes: number): Duration {
    return Duration.seconds(finite(minutes, 'a duration in minutes') * 60);
  }
  static hours(hours: number): Duration {
    return Duration.seconds(finite(hours, 'a duration in hours') * 3600);
  }
  static days(days: number): Duration {
    return Duration.seconds(finite(days, 'a duration in days') * 86400);
  }
  get minutes(): number {
    return this.seconds / 60;
  }
  get hours(): number {
    return this.seconds / 3600;
  }
  get days(): number {
    return this.seconds / 86400;
  }
  plus(other: Duration): Duration {
    return Duration.seconds(this.seconds + other.seconds);
  }
  negated(): Duration {
    return Duration.seconds(-this.seconds);
  }
  /** `1 h 02 m 03 s`, rounded to a second; a minus sign leads a negative span. */
  toString(): string {
    const total = Math.round(Math.abs(this.seconds));
    const two = (n: number) => String(n).padStart(2, '0');
    const [h, m, s] = [Math.floor(total / 3600), Math.floor(total / 60) % 60, total % 60];
    const body = h > 0 ? `${h} h ${two(m)} m ${two(s)} s` : m > 0 ? `${m} m ${two(s)} s` : `${s} s`;
    return this.seconds < 0 && total > 0 ? `−${body}` : body;
  }
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
  static knots(knots: number, text?: string): Speed {
    return new Speed(finite(knots, 'a speed in knots') + 0, text);
  }
  toString(): string {
    return this.text ?? `${trim(this.knots, 1)} kn`;
  }
  toJSON(): { knots: number; text?: string } {
    return this.text === undefined ? { knots: this.knots } : { knots: this.knots, text: this.text };
  }
}

export const metres = (value: number): Length => Length.metres(value);
export const feet = (value: number): Length => Length.feet(value);
export const nauticalMiles = (value: number): Length => Length.nauticalMiles(value);
export const hectopascals = (value: number): Pressure => Pressure.hectopascals(value);
export const inchesOfMercury = (value: number): Pressure => Pressure.inchesOfMercury(value);
export const celsius = (value: number): Temperature => Temperature.celsius(value);
export const fahrenheit = (value: number): Temperature => Temperature.fahrenheit(value);
export const knots = (value: number): Speed => Speed.knots(value);

/** At most `decimals` decimals, trailing zeros dropped, a true minus sign. */
function trim(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)) + 0).replace('-', '−');
}
