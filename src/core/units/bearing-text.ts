import { Angle } from './angle.js';
import { EntryError } from './errors.js';

const FORM = 'Write a true bearing as 312°, 007.5° or N 48° W.';
const PLAIN = /^\s*(\d{1,3}(?:\.\d+)?)\s*(?:[°º˚]|deg(?:rees)?)?\s*(T|true)?\s*$/i;
const QUADRANT = /^\s*([NS])\s*(\d{1,2}(?:\.\d+)?)\s*[°º˚]?\s*([EW])\s*$/i;
const POINTS = [
  'N',
  'NNE',
  'NE',
  'ENE',
  'E',
  'ESE',
  'SE',
  'SSE',
  'S',
  'SSW',
  'SW',
  'WSW',
  'W',
  'WNW',
  'NW',
  'NNW',
];

/**
 * A true bearing or course, 0° (included) to 360° (excluded), clockwise from north: `312°`, `312`, `007.5° T`,
 * `N 48° W`, `NW`.
 * @throws EntryError over 360°, on a magnetic or compass bearing (it must be corrected first), on any other text
 */
export function bearing(text: string): Angle {
  if (typeof text !== 'string')
    throw new EntryError(`A bearing is read from text. ${FORM}`, String(text));
  const plain = PLAIN.exec(text);
  if (plain?.[1] !== undefined) {
    const degrees = Number(plain[1]);
    if (degrees > 360) throw new EntryError(`A bearing cannot exceed 360°. ${FORM}`, text, 0);
    return Angle.degrees(degrees % 360, text);
  }
  const quadrant = QUADRANT.exec(text);
  if (quadrant) {
    const part = Number(quadrant[2]);
    if (part > 90)
      throw new EntryError(`The angle from north or south cannot exceed 90°. ${FORM}`, text);
    const north = quadrant[1]?.toUpperCase() === 'N';
    const east = quadrant[3]?.toUpperCase() === 'E';
    const degrees = north ? (east ? part : 360 - part) : east ? 180 - part : 180 + part;
    return Angle.degrees(degrees % 360, text);
  }
  const point = POINTS.indexOf(text.trim().toUpperCase());
  if (point >= 0) return Angle.degrees(point * 22.5, text);
  if (/\d\s*[°º˚]?\s*(?:M|mag\w*|C|compass)\s*$/i.test(text))
    throw new EntryError(
      `A magnetic or compass bearing must be turned into a true one first. ${FORM}`,
      text,
    );
  throw new EntryError(`That is not a bearing. ${FORM}`, text);
}
