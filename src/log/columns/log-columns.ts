import { body } from '../../core/sky/index.js';
import type { LogColumn } from './column.js';
import {
  readCourse,
  readDistance,
  readEyeHeight,
  readIndexError,
  readLatitude,
  readLongitude,
  readPressure,
  readReading,
  readSeaState,
  readSigma,
  readSpeed,
  readTemperature,
} from './read-quantity.js';
import { readUtcMs, readWatchError } from './read-time.js';
import { wordReader } from './read-word.js';
import * as print from './print-value.js';

export type HorizonWord = 'natural' | 'short' | 'artificial' | 'bubble';
export type LimbWord = 'lower' | 'upper' | 'centre';
export type PositionKind = 'known' | 'DR';

const asWritten = (text: string): string => text;
const readLimb = wordReader<LimbWord>(
  'limb',
  new Map<string, LimbWord>([
    ['lower', 'lower'],
    ['LL', 'lower'],
    ['upper', 'upper'],
    ['UL', 'upper'],
    ['centre', 'centre'],
    ['center', 'centre'],
  ]),
  ['lower', 'upper', 'centre'],
);
const readHorizon = wordReader<HorizonWord>(
  'horizon',
  new Map<string, HorizonWord>([
    ['natural', 'natural'],
    ['sea', 'natural'],
    ['short', 'short'],
    ['dip short', 'short'],
    ['shore', 'short'],
    ['artificial', 'artificial'],
    ['bubble', 'bubble'],
  ]),
  ['natural', 'short', 'artificial', 'bubble'],
);
const readPositionKind = wordReader<PositionKind>(
  'kind of position',
  new Map<string, PositionKind>([
    ['known', 'known'],
    ['DR', 'DR'],
    ['EP', 'DR'],
  ]),
  ['known', 'DR'],
);
const readAccepted = wordReader<boolean>(
  'verdict',
  new Map<string, boolean>([
    ['yes', true],
    ['accepted', true],
    ['no', false],
    ['rejected', false],
  ]),
  ['yes', 'no'],
);

/**
 * The columns of a sight log, in the order of our own files. One row is one reading. Only `body`, `reading` and
 * a time (`UTC`, or `watch time` with `watch error`) must be there; an empty cell means not noted.
 */
export const logColumns: readonly LogColumn[] = [
  {
    key: 'round',
    head: 'round',
    read: asWritten,
    align: 'left',
    about: 'Name of the round the sight belongs to, such as 2027-05-14 dawn.',
  },
  {
    key: 'sight',
    head: 'sight',
    read: asWritten,
    align: 'left',
    about: 'Name or number of the sight: readings of one sight share it within a round.',
  },
  {
    key: 'utcMs',
    textKey: 'utcText',
    head: 'UTC',
    aliases: ['time (UTC)', 'UTC time', 'date and time (UTC)', 'date time UTC', 'UT', 'GMT'],
    read: readUtcMs,
    align: 'left',
    about: 'Date and time to the second, UTC: 2027-05-11 09:42:17.',
  },
  {
    key: 'watchMs',
    textKey: 'watchText',
    head: 'watch time',
    aliases: ['deck watch', 'watch', 'WT'],
    read: readUtcMs,
    align: 'left',
    about: 'Date and time as the watch showed them; needs the watch error where UTC is empty.',
  },
  {
    key: 'watchErrorS',
    textKey: 'watchErrorText',
    head: 'watch error',
    aliases: ['WE', 'chronometer error'],
    numeric: true,
    read: readWatchError,
    print: print.watchError,
    align: 'right',
    about: 'Seconds the watch is slow or fast on UTC: 12 s slow.',
  },
  {
    key: 'body',
    head: 'body',
    aliases: ['object', 'star'],
    read: body,
    align: 'left',
    about: 'Sun, Moon, Venus, Mars, Jupiter, Saturn or the name of a navigational star.',
  },
  {
    key: 'limb',
    head: 'limb',
    read: readLimb,
    align: 'left',
    about: 'lower, upper or centre; must be given for the Sun and the Moon.',
  },
  {
    key: 'readingDeg',
    textKey: 'readingText',
    head: 'reading',
    aliases: ['hs', 'sextant reading', 'sextant altitude', 'altitude read'],
    units: ['°'],
    numeric: true,
    read: readReading,
    print: print.reading,
    align: 'right',
    about:
      'What the sextant read, uncorrected: 41°18.6′. Over an artificial horizon, the doubled angle.',
  },
  {
    key: 'observer',
    head: 'observer',
    read: asWritten,
    align: 'left',
    about: 'Who took the reading.',
  },
  {
    key: 'instrument',
    head: 'instrument',
    aliases: ['sextant'],
    read: asWritten,
    align: 'left',
    about: 'Which sextant.',
  },
  {
    key: 'indexErrorArcmin',
    textKey: 'indexErrorText',
    head: 'index error',
    aliases: ['IE'],
    units: ['′'],
    numeric: true,
    read: readIndexError,
    print: print.indexError,
    align: 'right',
    about:
      'Index error found at the last check: 1.4′ off the arc (reads too low), 0.8′ on the arc.',
  },
  {
    key: 'horizon',
    head: 'horizon',
    read: readHorizon,
    align: 'left',
    about: 'natural, short (a shore nearer than the horizon), artificial or bubble.',
  },
  {
    key: 'horizonDistanceM',
    textKey: 'horizonDistanceText',
    head: 'horizon distance',
    aliases: ['distance of horizon', 'shore distance'],
    unit: 'm',
    units: ['m', 'ft', 'nmi', 'km', 'cables'],
    numeric: true,
    read: readDistance,
    print: print.metres,
    align: 'right',
    about: 'Distance to the shore line used as horizon; must be given with a short horizon.',
  },
  {
    key: 'eyeHeightM',
    textKey: 'eyeHeightText',
    head: 'height of eye',
    aliases: ['eye height', 'HE', 'HoE', 'height of the eye'],
    unit: 'm',
    units: ['m', 'ft'],
    numeric: true,
    read: readEyeHeight,
    print: print.metres,
    align: 'right',
    about: 'Height of the eye above the water.',
  },
  {
    key: 'temperatureC',
    textKey: 'temperatureText',
    head: 'temperature',
    aliases: ['air temperature'],
    unit: '°C',
    units: ['°C', '°F', 'C', 'F'],
    numeric: true,
    read: readTemperature,
    print: print.celsius,
    align: 'right',
    about: 'Air temperature.',
  },
  {
    key: 'pressureHpa',
    textKey: 'pressureText',
    head: 'pressure',
    aliases: ['barometer', 'air pressure'],
    unit: 'hPa',
    units: ['hPa', 'mbar', 'mb', 'inHg', 'mmHg'],
    numeric: true,
    read: readPressure,
    print: print.hectopascals,
    align: 'right',
    about: 'Air pressure at the eye.',
  },
  {
    key: 'positionKind',
    head: 'position',
    aliases: ['position kind'],
    read: readPositionKind,
    align: 'left',
    about:
      'known (surveyed, for practice ashore) or DR; DR is assumed where a latitude stands alone.',
  },
  {
    key: 'latDeg',
    textKey: 'latText',
    head: 'latitude',
    aliases: ['lat', 'DR latitude'],
    units: ['°'],
    numeric: true,
    read: readLatitude,
    print: print.latitude,
    align: 'right',
    about: 'Latitude of that position: 19°31.0′ S.',
  },
  {
    key: 'lonDeg',
    textKey: 'lonText',
    head: 'longitude',
    aliases: ['lon', 'long', 'DR longitude'],
    units: ['°'],
    numeric: true,
    read: readLongitude,
    print: print.longitude,
    align: 'right',
    about: 'Longitude of that position: 001°12.0′ W.',
  },
  {
    key: 'courseDeg',
    textKey: 'courseText',
    head: 'course',
    aliases: ['CMG', 'course true'],
    units: ['°'],
    numeric: true,
    read: readCourse,
    print: print.course,
    align: 'right',
    about: 'True course made good: 312°.',
  },
  {
    key: 'speedKn',
    textKey: 'speedText',
    head: 'speed',
    aliases: ['SMG'],
    unit: 'kn',
    units: ['kn', 'kt', 'knots', 'm/s', 'km/h'],
    numeric: true,
    read: readSpeed,
    print: print.knots,
    align: 'right',
    about: 'Speed made good.',
  },
  {
    key: 'seaState',
    textKey: 'seaText',
    head: 'sea',
    aliases: ['sea state'],
    read: readSeaState,
    print: String,
    align: 'left',
    about: 'Sea state 0 to 9 (WMO code table 3700) or its word: slight.',
  },
  {
    key: 'statedSigmaArcmin',
    textKey: 'statedSigmaText',
    head: 'sigma',
    aliases: ['standard deviation', 'stated sigma'],
    units: ['′'],
    numeric: true,
    read: readSigma,
    print: print.minutes,
    align: 'right',
    about: 'Standard deviation of the altitude, all causes together, if you state one: 0.7′.',
  },
  {
    key: 'accepted',
    head: 'accepted',
    aliases: ['use'],
    read: readAccepted,
    align: 'left',
    about: 'yes or no; a reading that is not used stays in the log. Empty means yes.',
  },
  {
    key: 'reason',
    head: 'reason',
    read: asWritten,
    align: 'left',
    about: 'Why a reading is not used.',
  },
  {
    key: 'remarks',
    head: 'remarks',
    aliases: ['remark', 'notes', 'note', 'comments', 'comment'],
    read: asWritten,
    align: 'left',
    about: 'Anything else.',
  },
];

/** The column of that key. @throws RangeError when there is none. */
export function logColumn(key: string): LogColumn {
  const found = logColumns.find((c) => c.key === key);
  if (!found) throw new RangeError(`a sight log has no column '${key}'`);
  return found;
}
