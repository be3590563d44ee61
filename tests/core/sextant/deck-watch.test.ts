import { describe, expect, test } from 'vitest';
import { deckWatch, EntryError } from 'cocked-hat';

describe('a deck watch', () => {
  test('that is slow makes the time later, one that is fast earlier', () => {
    const slow = deckWatch({ date: '2027-05-11', reading: '09:42:20', error: '3 s slow' });
    expect(slow.value.toIso()).toBe('2027-05-11T09:42:23Z');
    const fast = deckWatch({ date: '2027-05-11', reading: '09:42:20', error: '1 m 12 s fast' });
    expect(fast.value.toIso()).toBe('2027-05-11T09:41:08Z');
  });
  test('has its rate carried to the time of the sight, the steps ending in the value', () => {
    const working = deckWatch({
      date: '2027-05-18',
      reading: '12:00:10',
      error: '10 s fast',
      rate: '0.5 s gaining',
      checked: '2027-05-08 12:00:00 UTC',
    });
    expect(working.value.toIso()).toBe('2027-05-18T11:59:55Z');
    expect(working.steps.map((s) => s.rule)).toEqual([
      'watch-reading',
      'watch-error',
      'watch-rate',
    ]);
    expect(working.steps.at(-1)?.result).toBe(working.value);
    expect(working.cautions).toEqual([]);
  });
  test('whose rate is carried over more than a month draws a caution', () => {
    const working = deckWatch({
      date: '2027-07-11',
      reading: '12:00:10',
      error: 'correct',
      rate: '1.2 s losing',
      checked: '2027-05-08 12:00:00 UTC',
    });
    expect(working.cautions.join()).toMatch(/compare the watch with a time signal/);
    expect(working.value.toIso()).toBe('2027-07-11T12:01:26.8Z');
  });
  test('that keeps zone time runs on over midnight', () => {
    const working = deckWatch({
      date: '2027-05-11',
      reading: '23:30:00',
      error: 'correct',
      zone: 1,
    });
    expect(working.value.toIso()).toBe('2027-05-12T00:30:00Z');
  });
  test('with a 12-hour dial is placed by a time known within 6 hours', () => {
    const fields = {
      date: '2027-05-11',
      reading: '09:42:20',
      error: '3 s slow',
      dialHours: 12,
    } as const;
    const evening = deckWatch({ ...fields, near: '2027-05-11 21:00:00 UTC' });
    expect(evening.value.toIso()).toBe('2027-05-11T21:42:23Z');
    expect(() => deckWatch(fields)).toThrow(/forenoon from afternoon/);
  });
});

test('errors and rates without their direction, and unclear readings, are refused', () => {
  const fine = { date: '2027-05-11', reading: '09:42:20', error: 'correct' };
  for (const error of ['3 s', '+3 s', '-3 s fast', '', 'slow', '3 slow'])
    expect(() => deckWatch({ ...fine, error }), error).toThrow(EntryError);
  for (const rate of ['0.4', '0.4 s a day', '0.4 gaining', '-0.4 s gaining'])
    expect(() => deckWatch({ ...fine, rate }), rate).toThrow(EntryError);
  expect(() => deckWatch({ ...fine, reading: '9:42' })).toThrow(EntryError);
  expect(() => deckWatch({ ...fine, reading: '24:00:00' })).toThrow(EntryError);
  expect(() => deckWatch({ ...fine, date: '11/05/2027' })).toThrow(EntryError);
  expect(() => deckWatch({ ...fine, date: '2027-02-30' })).toThrow(EntryError);
  expect(() => deckWatch({ ...fine, rate: '1 s gaining' })).toThrow(/needs the time/);
});
