import { expect, test } from 'vitest';
import {
  Angle,
  EntryError,
  inZone,
  Instant,
  longitude,
  zoneDescription,
  zoneTime,
} from 'cocked-hat';

// Zones as common practice has them (no source): 15° wide, centred on multiples of 15°, named by the hours to add.
test.each([
  ['0°', 0],
  ['7°29′ W', 0],
  ['7°31′ W', 1],
  ['7°29′ E', 0],
  ['7°31′ E', -1],
  ['14°25′ W', 1],
  ['72° W', 5],
  ['172°29′ E', -11],
  ['172°31′ E', -12],
  ['179°59′ W', 12],
])('longitude %s has zone description %d', (text, zone) =>
  expect(zoneDescription(longitude(text))).toBe(zone),
);

test('a zone time and its UTC are the same instant', () => {
  expect(zoneTime('2027-05-11 08:42:17', 1).toIso()).toBe('2027-05-11T09:42:17Z');
  expect(inZone(Instant.utc('2027-05-11 09:42:17'), 1)).toBe('2027-05-11 08:42:17 ZD +1');
  expect(zoneTime('2027-05-11 08:42:17', -5.5).toIso()).toBe('2027-05-11T03:12:17Z');
});

test('either side of the date line the hour is the same and the date is not', () => {
  const instant = Instant.utc('2027-05-11 23:30:00');
  const east = inZone(instant, zoneDescription(longitude('179° E')));
  const west = inZone(instant, zoneDescription(longitude('179° W')));
  expect(east).toBe('2027-05-12 11:30:00 ZD −12');
  expect(west).toBe('2027-05-11 11:30:00 ZD +12');
});

test('an impossible zone, or UTC given as zone time, is refused', () => {
  expect(() => zoneTime('2027-05-11 08:42:17', 13)).toThrow(EntryError);
  expect(() => zoneTime('2027-05-11 08:42:17', NaN)).toThrow(EntryError);
  expect(() => zoneTime('2027-05-11 08:42:17 UTC', 1)).toThrow(/not a zone time/);
  expect(zoneDescription(Angle.degrees(360))).toBe(0);
});
