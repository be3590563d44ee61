import { angle, type Angle } from '../../core/units/index.js';
import { oneOf, optional, record, text, within } from '../check.js';
import { ARC_LEAST_DEG, ARC_MOST_DEG } from './drum-pose.js';

/** Data of the sextant view. */
export interface InstrumentData {
  readonly format: 1;
  readonly readingDeg: number;
  /** Index error of the instrument in the index check, on the arc +. */
  readonly indexErrorArcmin: number;
  /** Semi-diameter of the Sun in the index check. */
  readonly sdArcmin: number;
  readonly seed: number;
  readonly open: 'reading' | 'trainer' | 'check';
  readonly viewId?: string;
}

/** What the sextant on the screen begins with; minutes of arc. */
export interface InstrumentOptions {
  /** On the arc +, as in `-1.4`; what the index check of the view has to find. 1.4′ off the arc unless told. */
  readonly indexErrorArcmin?: number;
  /** 15.9′ unless told. */
  readonly semidiameterArcmin?: number;
  /** The trainer's readings follow from it: a class with one seed reads the same. 1 unless told. */
  readonly seed?: number;
  /** What the view opens with; the reading unless told. */
  readonly open?: InstrumentData['open'];
}

/**
 * @param reading `34°17.6′`, `0°01.4′ off the arc`, or an angle; −5° to 125°
 * @throws EntryError for a text that is no angle, RangeError beyond the arc
 */
export function instrumentData(
  reading: string | Angle,
  options: InstrumentOptions = {},
  viewId?: string,
): InstrumentData {
  const degrees = typeof reading === 'string' ? readingDegrees(reading) : reading.degrees;
  if (!(degrees >= ARC_LEAST_DEG && degrees <= ARC_MOST_DEG))
    throw new RangeError(
      `the drawn arc runs from 5° off the arc to ${ARC_MOST_DEG}°, and ${String(reading)} is beyond it: '34°17.6′'`,
    );
  const {
    indexErrorArcmin = -1.4,
    semidiameterArcmin = 15.9,
    seed = 1,
    open = 'reading',
  } = options;
  const data = {
    format: 1,
    readingDeg: degrees,
    indexErrorArcmin,
    sdArcmin: semidiameterArcmin,
    seed,
    open,
  };
  return checkInstrumentData({ ...data, ...(viewId ? { viewId } : {}) });
}

/** Degrees of a reading as written, off the arc negative. @throws EntryError */
export function readingDegrees(written: string): number {
  const off = /^(.*?)\s*\b(off|on)(?:\s+the\s+arc)?\s*$/i.exec(written);
  const amount = angle(off?.[1] ?? written).degrees;
  return off?.[2]?.toLowerCase() === 'off' ? -amount : amount;
}

const fields = record({
  format: oneOf(1),
  readingDeg: within(ARC_LEAST_DEG, ARC_MOST_DEG),
  indexErrorArcmin: within(-30, 30),
  sdArcmin: within(15, 17),
  seed: within(-(2 ** 31), 2 ** 31),
  open: oneOf('reading', 'trainer', 'check'),
  viewId: optional(text),
});

/** Data of the view out of a notebook file. @throws ViewDataError naming the field that is wrong */
export const checkInstrumentData = (value: unknown): InstrumentData =>
  fields(value, '') as InstrumentData;
