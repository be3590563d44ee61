import { Angle } from '../units/angle.js';
import { angle } from '../units/angle-text.js';
import { EntryError } from '../units/errors.js';
import { valueOrText } from '../units/value-or-text.js';
import { shown } from './shown.js';

/** One line of an instrument's certificate: at this reading of the arc, this correction is to be added. */
export interface CertificateLine {
  readonly reading: Angle;
  /** To be added. */
  readonly correction: Angle;
}
/** An instrument's certificate, in order of reading. */
export type Certificate = readonly CertificateLine[];
/** The maker's table as rows of reading and correction to be added: `[['0°', '0.0′'], ['30°', '+0.1′']]`. */
export type CertificateFields = readonly (
  CertificateLine | readonly [reading: string | Angle, correction: string | Angle]
)[];

const GREATEST_CORRECTION_ARCMIN = 10;
const FORM = "Write [['0°', '0.0′'], ['30°', '+0.2′'], ['60°', '−0.1′']], corrections to be added.";

/**
 * Reads a certificate's table: pairs of reading and correction (to be added, as certificates print it).
 * @throws EntryError when there is no line, a reading stands twice, or a correction exceeds 10′.
 */
export function certificate(fields: CertificateFields): Certificate {
  if (!Array.isArray(fields) || fields.length === 0)
    throw new EntryError(`The certificate has no lines. ${FORM}`, shown(fields));
  const lines = fields.map(readLine).sort((a, b) => a.reading.compare(b.reading));
  lines.forEach((line, i) => {
    if (lines[i + 1]?.reading.degrees === line.reading.degrees)
      throw new EntryError(
        `The certificate has two corrections for ${line.reading}. ${FORM}`,
        line.reading.text ?? line.reading.toString(),
      );
  });
  return Object.freeze(lines);
}

const isAngleOrText = (value: unknown): value is string | Angle =>
  typeof value === 'string' || value instanceof Angle;

function readLine(line: CertificateFields[number]): CertificateLine {
  const pair: readonly unknown[] = Array.isArray(line)
    ? line
    : typeof line === 'object' && line !== null && 'reading' in line
      ? [line.reading, line.correction]
      : [];
  const [reading, correction] = pair;
  if (!isAngleOrText(reading) || !isAngleOrText(correction))
    throw new EntryError(
      `A line of the certificate is a reading and its correction. ${FORM}`,
      shown(line),
    );
  const value = valueOrText(Angle, correction, angle);
  if (Math.abs(value.arcminutes) > GREATEST_CORRECTION_ARCMIN)
    throw new EntryError(
      `A correction of more than ${GREATEST_CORRECTION_ARCMIN}′ does not belong on a certificate. ${FORM}`,
      value.text ?? shown(value),
    );
  return Object.freeze({
    reading: valueOrText(Angle, reading, (text) => angle(text, { kind: 'altitude' })),
    correction: value,
  });
}

/**
 * The correction at a reading, in minutes of arc to be added: in proportion between two lines; beyond the first
 * and last line their value, held; 0 for an empty table.
 * @param readingDeg degrees
 */
export function certificateKernel(readingDeg: number, table: Certificate): number {
  const after = table.findIndex((line) => line.reading.degrees >= readingDeg);
  const upper = table[after] ?? table[table.length - 1];
  const lower = after > 0 ? table[after - 1] : upper;
  if (!upper || !lower) return 0;
  const span = upper.reading.degrees - lower.reading.degrees;
  if (after <= 0 || span <= 0) return upper.correction.arcminutes;
  const part = (readingDeg - lower.reading.degrees) / span;
  return lower.correction.arcminutes * (1 - part) + upper.correction.arcminutes * part;
}

/** Whether the reading lies between the first and the last line. */
export function certificateCovers(readingDeg: number, table: Certificate): boolean {
  const first = table[0];
  const last = table[table.length - 1];
  return (
    first !== undefined &&
    last !== undefined &&
    readingDeg >= first.reading.degrees &&
    readingDeg <= last.reading.degrees
  );
}
