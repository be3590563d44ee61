import {
  angle,
  bearing,
  EntryError,
  latitude,
  length,
  longitude,
  pressure,
  speed,
  temperature,
} from '../../core/units/index.js';

function within(value: number, text: string, low: number, high: number, problem: string): number {
  if (value < low || value > high) throw new EntryError(problem, text);
  return value;
}

/** A sextant reading in degrees; a small reading off the arc carries a minus. @throws EntryError */
export function readReading(text: string): number {
  return within(
    angle(text, { kind: 'altitude' }).degrees,
    text,
    -5,
    150,
    'No sextant reads further than 5° off the arc. Write 34°17.6′.',
  );
}

const INDEX = /^(.*?)\s*\b(on|off)\b(?:\s+the\s+arc)?$/i;
const CORRECTION = /^(?:index\s+)?correction\s+(.+)$/i;
const INDEX_FORM = 'Write 1.4′ on the arc, 1.4′ off the arc or none.';

/**
 * An index error in minutes of arc, on the arc positive (the sextant reads too high): `1.4′ off the arc`,
 * `0.8′ on`, `correction −1.4′`. A bare sign is refused: some write the error, some the correction.
 * @throws EntryError
 */
export function readIndexError(text: string): number {
  const limit = (arcmin: number) =>
    within(arcmin, text, -60, 60, 'An index error over a degree is no index error. ' + INDEX_FORM);
  if (/^(?:none|nil)$/i.test(text.trim())) return 0;
  const correction = CORRECTION.exec(text.trim());
  if (correction?.[1]) return limit(-minutes(correction[1], text));
  const m = INDEX.exec(text.trim());
  if (m?.[1] !== undefined && m[2]) {
    if (/^[+\-−]/.test(m[1]))
      throw new EntryError(`A sign and the word ${m[2]} say the side twice. ${INDEX_FORM}`, text);
    // With its side told it can only be an index error, and that is in minutes: 1.4 off.
    const size = minutes(/^\d+(?:\.\d+)?$/.test(m[1]) ? `${m[1]}′` : m[1], text);
    return limit(m[2].toLowerCase() === 'off' && size !== 0 ? -size : size);
  }
  if (minutes(text, text) === 0) return 0;
  throw new EntryError(
    `An index error must say whether it is on or off the arc. ${INDEX_FORM}`,
    text,
  );
}

/** Minutes of arc; a bare number is refused. */
function minutes(text: string, whole: string): number {
  try {
    return angle(text).arcminutes;
  } catch (error) {
    if (!(error instanceof EntryError)) throw error;
    throw new EntryError(`That is not an index error. ${INDEX_FORM}`, whole);
  }
}

/** Height of eye in metres, 0 to 100. @throws EntryError */
export function readEyeHeight(text: string): number {
  return within(
    length(text).metres,
    text,
    0,
    100,
    'A height of eye lies between 0 and 100 m. Write 2.6 m or 9 ft.',
  );
}

/** Distance to a shore horizon in metres. @throws EntryError */
export function readDistance(text: string): number {
  return within(
    length(text).metres,
    text,
    1,
    60_000,
    'The distance of a shore horizon lies between 1 m and 60 km. Write 420 m or 1.2 nmi.',
  );
}

/** Air temperature in °C. @throws EntryError */
export function readTemperature(text: string): number {
  return within(
    temperature(text).celsius,
    text,
    -60,
    60,
    'Air between −60 °C and 60 °C is expected. Write 21 °C or 70 °F.',
  );
}

/** Air pressure in hPa. @throws EntryError */
export function readPressure(text: string): number {
  return within(
    pressure(text).hectopascals,
    text,
    600,
    1090,
    'A pressure between 600 and 1090 hPa is expected. Write 1010 hPa or 29.83 inHg.',
  );
}

export const readLatitude = (text: string): number => latitude(text).degrees;
export const readLongitude = (text: string): number => longitude(text).degrees;
export const readCourse = (text: string): number => bearing(text).degrees;

/** Speed in knots, 0 to 60. @throws EntryError */
export function readSpeed(text: string): number {
  return within(
    speed(text).knots,
    text,
    0,
    60,
    'A speed lies between 0 and 60 knots. Write 5.2 kn.',
  );
}

/** A stated standard deviation in minutes of arc. @throws EntryError */
export function readSigma(text: string): number {
  return within(
    angle(text).arcminutes,
    text,
    0.01,
    60,
    'A standard deviation lies between 0.01′ and 60′. Write 0.7′.',
  );
}

/** Sea state, WMO code table 3700, 0 to 9, in figures or in its words. */
const SEA = [
  ['calm glassy', 'glassy'],
  ['calm rippled', 'rippled', 'calm'],
  ['smooth', 'smooth wavelets'],
  ['slight'],
  ['moderate'],
  ['rough'],
  ['very rough'],
  ['high'],
  ['very high'],
  ['phenomenal'],
];

/** @throws EntryError listing the words */
export function readSeaState(text: string): number {
  const plain = text.trim().toLowerCase().replace(/[()]/g, '');
  const code = /^\d$/.test(plain) ? Number(plain) : SEA.findIndex((names) => names.includes(plain));
  if (code < 0)
    throw new EntryError(
      'That is not a sea state. Write 0 to 9, or calm, smooth, slight, moderate, rough, very rough, high.',
      text,
    );
  return code;
}

/** The word for a sea state 0 to 9: `slight`. */
export const seaStateWord = (code: number): string => SEA[code]?.[0] ?? String(code);
