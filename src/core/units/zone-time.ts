import type { Angle } from './angle.js';
import { EntryError } from './errors.js';
import { Instant } from './instant.js';
import { Duration } from './scalar.js';

/**
 * Zone description of a longitude: hours to add to zone time to get UTC, west +, −12 to +12 (zones 15° wide centred on
 * the meridians that are multiples of 15°; on a boundary the western zone). Either side of 180° the same hour has another date:
 * −12 in east longitude, +12 in west. Source: common practice, no source.
 * @param longitude east positive, any turn
 */
export function zoneDescription(longitude: Angle): number {
  const east = longitude.signed().degrees;
  const zone = Math.ceil(-east / 15 - 0.5);
  return zone === 0 ? 0 : zone;
}

/**
 * A zone time as an instant: `zoneTime('2027-05-11 08:42:17', 1)` is 09:42:17 UTC.
 * @param text date and time without a letter for the zone, written as a UTC time is
 * @param description hours to add to get UTC, west +, within ±12; halves and quarters allowed
 * @throws EntryError on a text that is no date and time, or a description that is no zone's
 */
export function zoneTime(text: string, description: number): Instant {
  checkZone(description);
  if (/(?:Z|UTC|UT)\s*$/i.test(text))
    throw new EntryError('This says UTC, so it is not a zone time. Leave the letters out.', text);
  const clock = Instant.utc(text);
  return clock.plus(Duration.hours(description));
}

/**
 * The zone time of an instant, with its own date: `2027-05-11 08:42:17 ZD +1`.
 * @param description hours to add to get UTC, west +, within ±12; halves and quarters allowed
 * @throws EntryError on a description that is no zone's
 */
export function inZone(instant: Instant, description: number): string {
  checkZone(description);
  const clock = instant.plus(Duration.hours(-description));
  const sign = description < 0 ? '−' : '+';
  return `${clock.toString().replace(' UTC', '')} ZD ${sign}${Math.abs(description)}`;
}

function checkZone(description: number): void {
  if (!(Math.abs(description) <= 12) || (description * 4) % 1 !== 0)
    throw new EntryError(
      'A zone description lies between −12 and +12 hours. Write 1 for zone +1.',
      String(description),
    );
}
