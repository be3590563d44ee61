import { expect, test } from 'vitest';
import { position, positionLine, sight } from '../../../src/index.js';

test('plain numbers for a position are refused with both right forms', () => {
  const wrong = () => position(-20.4 as never, 2.9 as never);
  expect(wrong).toThrow(
    /position\('19°31′ S', '001°12′ W'\), or Position\.degrees\(-20\.4, 2\.9\)/,
  );
  expect(wrong).toThrow(expect.objectContaining({ name: 'EntryError', text: '-20.4, 2.9' }));
});

test('a position line is taken from the DR of the sight, and its absence is named', () => {
  const fields = {
    body: 'Sun',
    limb: 'lower',
    reading: '39°13.7′',
    time: '2027-05-11 09:42:17 UTC',
    eyeHeight: '2.6 m',
    indexError: '1.4′ off the arc',
  } as const;
  const dr = position('19°31′ S', '001°12′ W');
  const withDr = positionLine(sight({ ...fields, dr }));
  expect(withDr.toString()).toBe(positionLine(sight(fields), dr).toString());
  expect(() => positionLine(sight(fields))).toThrow(
    /no DR: give a position, positionLine\(sight, /,
  );
});
