import { expect, test } from 'vitest';
import { position, positionLine, sight } from '../../../src/index.js';

test('plain numbers for a position are refused with both right forms', () => {
  const wrong = () => position(-20.4 as never, 2.9 as never);
  expect(wrong).toThrow(
    /position\('19°31′ S', '001°12′ W'\), or Position\.degrees\(-20\.4, 2\.9\)/,
  );
  expect(wrong).toThrow(expect.objectContaining({ name: 'EntryError', text: '-20.4, 2.9' }));
});

test('a position may stand in one text, letters after the figures or before them', () => {
  const texts = ['19°31′ S, 001°12′ W', '19 31 s / 1 12 w', 'S19°31′ W001°12′', '19-31S 001-12W'];
  for (const text of texts) expect(position(text).toString()).toBe('19°31.0′ S, 001°12.0′ W');
  const printed = position('19°31′ S', '001°12′ W').toString();
  expect(position(printed).toString()).toBe(printed);
  for (const text of ['19°31′ S', '001°12′ W 19°31′ S', '-19.5, 1.2', ''])
    expect(() => position(text)).toThrow(/position\('19°31′ S, 001°12′ W'\)/);
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
