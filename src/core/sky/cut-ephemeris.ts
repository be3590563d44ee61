import { OutOfRangeError } from '../units/errors.js';
import { mjdOf } from '../units/instant-text.js';
import { MJD_TO_JD } from '../units/time-scales.js';
import { readHeader, recordBytes, writeFile, type EphemerisSource } from './ephemeris-format.js';

const MARGIN_DAYS = 2;

/**
 * The part of an ephemeris file that covers whole years, as a file of its own: a few kB a year, for a published page.
 * @param fromYear first year covered, from 1 January 0h
 * @param toYear last year covered, to 31 December 24h
 * @throws OutOfRangeError when the file does not reach that far
 */
export function cutEphemeris(
  source: EphemerisSource,
  fromYear: number,
  toYear: number,
): Uint8Array {
  const { header, dataOffset } = readHeader(source);
  if (!Number.isInteger(fromYear) || !Number.isInteger(toYear) || fromYear > toYear)
    throw new OutOfRangeError(`years are whole and in order, not ${fromYear} to ${toYear}`);
  const first = mjdOf(fromYear, 1, 1) + MJD_TO_JD - MARGIN_DAYS;
  const last = mjdOf(toYear + 1, 1, 1) + MJD_TO_JD + MARGIN_DAYS;
  const records: Uint8Array[] = [];
  let offset = 0;
  const bodies = header.bodies.map((body) => {
    const end = body.firstJd + body.granules * body.granuleDays;
    if (first < body.firstJd || last > end)
      throw new OutOfRangeError(`${source.name} does not cover all of ${fromYear} to ${toYear}`);
    const from = Math.floor((first - body.firstJd) / body.granuleDays);
    const to = Math.min(Math.ceil((last - body.firstJd) / body.granuleDays), body.granules);
    const size = recordBytes(body);
    records.push(source.read(dataOffset + body.offset + from * size, (to - from) * size));
    const cut = {
      ...body,
      firstJd: body.firstJd + from * body.granuleDays,
      granules: to - from,
      offset,
    };
    offset += (to - from) * size;
    return cut;
  });
  return writeFile({ ...header, bodies }, records);
}
