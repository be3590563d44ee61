import { Angle } from './angle.js';
import { EntryError } from './errors.js';
import { scanAngle, type AngleToken } from './angle-scan.js';

/** What the angle is, for limits and for the wording of a refusal. */
export type AngleKind = 'angle' | 'altitude' | 'latitude' | 'longitude';
/** What kind of angle a text is to be, and how its letter and range are judged. */
export interface AngleOptions {
  /** `altitude` refuses what no sextant arc carries (over 150°) and letters; latitude over 90°; longitude over 180°. */
  readonly kind?: AngleKind;
}

const RIGHT_FORM: Record<AngleKind, string> = {
  angle: 'Write 34°17.6′, 34 17.6 or 34:17:36; decimal degrees as 34.293°.',
  altitude: 'Write 34°17.6′, 34 17.6 or 34:17:36; decimal degrees as 34.293°.',
  latitude: 'Write 15°55.2′ S or N 15 55.2.',
  longitude: 'Write 005°43.1′ W or E 5 43.1.',
};
/** The greatest size of each kind in degrees. The arc of a sextant reads to about 150° at most (quintant 144°; common practice). */
const LIMIT: Record<AngleKind, number> = {
  angle: Infinity,
  altitude: 150,
  latitude: 90,
  longitude: 180,
};
const LETTERS: Record<AngleKind, string> = {
  angle: 'NSEW',
  altitude: '',
  latitude: 'NS',
  longitude: 'EW',
};
const UNIT_NAME = ['degrees', 'minutes', 'seconds'] as const;

/**
 * Reads an angle as people write it: `34° 17.6′`, `34 17.6`, `34-17.6`, `34:17:36`, `N 15° 55.2′`, `15 55.2 S`,
 * `34.293°`, `1.4′`, `11h 39m 26s`. North and east are positive. The text is kept in `.text`.
 * @throws EntryError when the text is ambiguous or impossible (60 minutes, N on a longitude, an altitude over 150°).
 * @example
 * ```ts
 * import { angle } from 'cocked-hat';
 *
 * [angle('34 17.6').degrees.toFixed(4), angle('15°55.2′ S').degrees.toFixed(4)]
 * ```
 * ```text
 * [ '34.2933', '-15.9200' ]
 * ```
 */
export function angle(text: string, options: AngleOptions = {}): Angle {
  const kind = options.kind ?? 'angle';
  const refuse = (problem: string, at?: number): never => {
    throw new EntryError(`${problem} ${RIGHT_FORM[kind]}`, String(text), at);
  };
  if (typeof text !== 'string')
    refuse(
      `An angle is read from text, not from ${typeof text === 'object' ? 'an' : 'a'} ${typeof text}.`,
    );
  const hours = hourAngle(text, refuse);
  if (hours !== undefined) return checked(hours, text, kind, refuse);

  const tokens = scanAngle(text, refuse);
  if (tokens.length === 0) refuse('Nothing is written here.', 0);
  const letter = takeLetter(tokens, kind, refuse);
  const signed = tokens[0]?.kind === 'dash' || tokens[0]?.kind === 'plus';
  const sign = takeSign(tokens, letter, refuse);
  const parts = readParts(tokens, refuse);
  if (parts.bare && letter === undefined && !(signed && kind !== 'angle'))
    refuse(`${parts.bare} alone could be degrees or minutes.`, parts.at);
  const size = parts.degrees + parts.minutes / 60 + parts.seconds / 3600;
  const directed = kind === 'latitude' || kind === 'longitude';
  if (directed && size > 0 && letter === undefined && !signed)
    refuse(
      `Which way? The letter ${kind === 'latitude' ? 'N or S' : 'E or W'} is missing.`,
      text.length,
    );
  const negative = sign === -1 || letter === 'S' || letter === 'W';
  return checked(negative ? -size : size, text, kind, refuse);
}

/**
 * A latitude, −90° to +90°, north positive. A letter N or S is wanted unless the text carries a sign.
 * @throws EntryError on E or W, on minutes of 60 and more, over 90°
 */
export const latitude = (text: string): Angle => angle(text, { kind: 'latitude' });
/**
 * A longitude, −180° to +180°, east positive. A letter E or W is wanted unless the text carries a sign.
 * @throws EntryError on N or S, on minutes of 60 and more, over 180°
 */
export const longitude = (text: string): Angle => angle(text, { kind: 'longitude' });

type Refuse = (problem: string, at?: number) => never;

function checked(degrees: number, text: string, kind: AngleKind, refuse: Refuse): Angle {
  if (!Number.isFinite(degrees)) refuse('That number is too long to be an angle.');
  if (Math.abs(degrees) > LIMIT[kind])
    refuse(
      kind === 'altitude'
        ? 'That is more than the 150° an arc can read.'
        : `A ${kind} cannot exceed ${LIMIT[kind]}°.`,
    );
  return Angle.degrees(degrees, text);
}

/** `11h 39m 26.7s`, an hour angle or right ascension, in degrees. */
function hourAngle(text: string, refuse: Refuse): number | undefined {
  const m =
    /^\s*([+\-−]?)\s*(\d+(?:\.\d+)?)\s*h(?:\s*(\d+(?:\.\d+)?)\s*m(?:\s*(\d+(?:\.\d+)?)\s*s?)?)?\s*$/i.exec(
      text,
    );
  if (!m) return undefined;
  const [minutes, seconds] = [Number(m[3] ?? 0), Number(m[4] ?? 0)];
  if (minutes >= 60) refuse('Minutes must be under 60.', text.toLowerCase().indexOf('h') + 1);
  if (seconds >= 60) refuse('Seconds must be under 60.', text.toLowerCase().indexOf('m') + 1);
  const size = 15 * (Number(m[2]) + minutes / 60 + seconds / 3600);
  return m[1] === '-' || m[1] === '−' ? -size : size;
}

function takeLetter(tokens: AngleToken[], kind: AngleKind, refuse: Refuse): string | undefined {
  const letters = tokens.filter((t) => t.kind === 'letter');
  const second = letters[1];
  if (second) refuse('Two letters for one direction.', second.at);
  const letter = letters[0];
  if (!letter) return undefined;
  const place = tokens.indexOf(letter);
  if (place !== 0 && place !== tokens.length - 1)
    refuse('The letter belongs before or after the figures.', letter.at);
  if (!LETTERS[kind].includes(letter.text))
    refuse(
      kind === 'altitude'
        ? `An altitude has no ${letter.text}.`
        : `${letter.text} does not belong to a ${kind}.`,
      letter.at,
    );
  tokens.splice(place, 1);
  return letter.text;
}

function takeSign(tokens: AngleToken[], letter: string | undefined, refuse: Refuse): number {
  const first = tokens[0];
  if (first?.kind !== 'dash' && first?.kind !== 'plus') return 1;
  if (letter) refuse(`A sign and the letter ${letter} say the direction twice.`, first.at);
  tokens.shift();
  return first.kind === 'dash' ? -1 : 1;
}

interface Parts {
  degrees: number;
  minutes: number;
  seconds: number;
  /** The one number without any mark, if that is all there is. */
  bare?: string;
  at: number;
}

function readParts(tokens: AngleToken[], refuse: Refuse): Parts {
  const values: [number, number, number] = [0, 0, 0];
  let place = -1;
  let marked = false;
  let numbers = 0;
  let fraction: AngleToken | undefined;
  let only: AngleToken | undefined;
  let i = 0;
  const first = tokens[0];
  if (!first) return refuse('There are no figures.', 0);
  while (i < tokens.length) {
    const token = tokens[i++];
    if (token?.kind !== 'number')
      return refuse(`A figure is missing before ${token?.text}.`, token?.at);
    if (fraction) refuse(`Only the last figure may have a decimal fraction.`, fraction.at);
    const next = tokens[i];
    place += 1;
    if (next?.kind === 'mark') {
      if (next.place < place) refuse(`${next.text} is out of order.`, next.at);
      place = next.place;
      marked = true;
      i += 1;
    } else if (next?.kind === 'dash' || next?.kind === 'colon') {
      i += 1;
      if (tokens[i]?.kind !== 'number') refuse('A figure is missing here.', next.at + 1);
    }
    if (place > 2) refuse('There are more than degrees, minutes and seconds.', token.at);
    if (place > 0 && numbers > 0 && Number(token.text) >= 60)
      refuse(`${capital(UNIT_NAME[place] ?? '')} must be under 60.`, token.at);
    values[place as 0 | 1 | 2] = Number(token.text);
    if (token.text.includes('.')) fraction = token;
    only = token;
    numbers += 1;
  }
  const [degrees, minutes, seconds] = values;
  const at = first.at;
  return numbers === 1 && !marked && only
    ? { degrees, minutes, seconds, at, bare: only.text }
    : { degrees, minutes, seconds, at };
}

const capital = (word: string) => word.charAt(0).toUpperCase() + word.slice(1);
