import { Angle } from '../units/angle.js';
import { angle } from '../units/angle-text.js';
import { EntryError } from '../units/errors.js';
import { shown } from './shown.js';

const FORM = "Write '1.4′ off the arc' or '0.8′ on the arc'; 'none' when there is none.";
const SIDE_FIRST = /^(on|off)(?:\s+the\s+arc)?\s*:?\s+(.+?)\.?$/i;
const SIDE = /^(.*?)\s*\b(on|off)\b(?:\s+(?:the\s+)?arc)?\.?\s*$/i;
const BARE_NUMBER = /^\d+(?:\.\d+)?$/;
const NONE = /^(?:none|nil|0(?:\.0*)?\s*['′]?)$/i;
const GREATEST_ARCMIN = 60;

/**
 * An index error as it is written down: `1.4′ off the arc`, `0.8 on`, `none`. A figure without mark is minutes.
 * @returns the error, on the arc positive (the sextant reads too much); its text is kept.
 * @throws EntryError on a sign (which of error and correction?), on a figure without a side, on more than 1°.
 */
export function indexError(text: string): Angle {
  if (typeof text !== 'string')
    throw new EntryError(`An index error is read from text. ${FORM}`, shown(text));
  const trimmed = text.trim();
  if (NONE.test(trimmed)) return Angle.degrees(0, text);
  const match = SIDE.exec(trimmed.replace(SIDE_FIRST, '$2 $1'));
  if (!match)
    throw new EntryError(
      /[+\-−]/.test(trimmed)
        ? `A sign alone could be that of the error or of the correction. ${FORM}`
        : `An index error must say whether it is on or off the arc. ${FORM}`,
      text,
      Math.max(0, text.search(/\S/)),
    );
  const figure = (match[1] ?? '').trim();
  if (figure === '') throw new EntryError(`The index error has no figure. ${FORM}`, text, 0);
  const sign = /^[+\-−]/.exec(figure);
  if (sign)
    throw new EntryError(
      `A sign and '${match[2]} the arc' say the direction twice. ${FORM}`,
      text,
      text.indexOf(sign[0]),
    );
  const size = angle(BARE_NUMBER.test(figure) ? `${figure}′` : figure).degrees;
  if (size * 60 > GREATEST_ARCMIN)
    throw new EntryError(
      `An index error of more than 1° is a misreading or a sextant to be adjusted. ${FORM}`,
      text,
    );
  return Angle.degrees(match[2]?.toLowerCase() === 'on' ? size : -size, text);
}

/**
 * `1.4′ off the arc`, `0.8′ on the arc`; `none` where it rounds to nought.
 * @param error on the arc positive
 */
export function formatIndexError(error: Angle): string {
  const figure = Math.abs(error.arcminutes).toFixed(1);
  if (Number(figure) === 0) return 'none';
  return `${figure}′ ${error.degrees > 0 ? 'on' : 'off'} the arc`;
}
