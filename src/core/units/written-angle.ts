import { Angle } from './angle.js';

/** An angle that is written otherwise than with degrees and a sign: a correction, a latitude, an error of the compass. */
class WrittenAngle extends Angle {
  readonly #write: () => string;
  constructor(angle: Angle, write: () => string) {
    super(angle.degrees, angle.text);
    this.#write = write;
  }
  override toString(): string {
    return this.#write();
  }
}

/** The same angle, whose `toString` gives what `write` says: `−2.8′`, `3.0° W`, `19°31.0′ S`. What is worked from it is plain. */
export const writtenAs = (angle: Angle, write: () => string): Angle =>
  new WrittenAngle(angle, write);
