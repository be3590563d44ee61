import { Angle } from '../units/angle.js';
import { angle, latitude } from '../units/angle-text.js';
import { EntryError } from '../units/errors.js';
import { valueOrText } from '../units/value-or-text.js';

/** Figures taken from a printed almanac, used instead of a computed place and cited. */
export interface AlmanacEntry {
  /** 0° to 360° westward. */
  readonly gha: Angle;
  /** North positive. */
  readonly declination: Angle;
  /** Geocentric; nought where none was typed. */
  readonly semidiameter: Angle;
  /** Equatorial; nought where none was typed. */
  readonly horizontalParallax: Angle;
  /** What was copied from: title, year, page. */
  readonly source: string;
}
/** Figures as they are copied from a printed almanac. */
export interface AlmanacEntryFields {
  /** `213°45.2′`, or an Angle. */
  readonly gha: string | Angle;
  /** `N 18°12.4′`; a letter is wanted. */
  readonly declination: string | Angle;
  /** Semi-diameter, `15.8′`; none for stars and planets. */
  readonly sd?: string | Angle;
  /** Horizontal parallax, `57.3′`. */
  readonly hp?: string | Angle;
  /** Title, year, page: cited in the working. */
  readonly source: string;
}

const GREATEST_SD_ARCMIN = 17;
const GREATEST_HP_ARCMIN = 62;

/**
 * Takes a printed almanac's figures for one body at one time. The text typed stays in each angle's `.text`.
 * @throws EntryError when a figure is impossible (GHA of 360° or more, declination over 90°, SD over 17′, HP over 62′)
 * or no source is named.
 */
export function almanacEntry(fields: AlmanacEntryFields): AlmanacEntry {
  if (typeof fields.source !== 'string' || fields.source.trim() === '')
    throw new EntryError(
      'Name the almanac the figures come from, e.g. its title, year and page.',
      String(fields.source),
    );
  return Object.freeze({
    gha: hourAngle(fields.gha),
    declination: declination(fields.declination),
    semidiameter: small(fields.sd, 'semi-diameter', GREATEST_SD_ARCMIN),
    horizontalParallax: small(fields.hp, 'horizontal parallax', GREATEST_HP_ARCMIN),
    source: fields.source,
  });
}

function hourAngle(given: string | Angle): Angle {
  const value = valueOrText(Angle, given, angle);
  if (value.degrees < 0 || value.degrees >= 360)
    throw new EntryError(
      'A GHA runs from 0° to 359°59.9′. Write 213°45.2′.',
      value.text ?? String(value),
    );
  return value;
}

function declination(given: string | Angle): Angle {
  const value = valueOrText(Angle, given, latitude);
  if (Math.abs(value.degrees) > 90)
    throw new EntryError(
      'A declination cannot exceed 90°. Write N 18°12.4′.',
      value.text ?? String(value),
    );
  return value;
}

function small(given: string | Angle | undefined, what: string, greatest: number): Angle {
  if (given === undefined) return Angle.zero;
  const value = valueOrText(Angle, given, angle);
  if (value.degrees < 0 || value.arcminutes > greatest)
    throw new EntryError(
      `A ${what} lies between 0′ and ${greatest}′. Write it as 15.8′.`,
      value.text ?? String(value),
    );
  return value;
}
