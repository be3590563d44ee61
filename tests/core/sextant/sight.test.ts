import { describe, expect, test } from 'vitest';
import {
  Angle,
  almanacEntry,
  EntryError,
  metres,
  observedAltitude,
  OutOfRangeError,
  Sight,
  sight,
  sightWith,
  type SightFields,
} from 'cocked-hat';
import { forenoon, of, sun, without } from './examples.js';

const wrong = (changes: Record<string, unknown>) => () =>
  sight({ ...forenoon, ...changes } as SightFields);

describe('taking down a sight', () => {
  test('keeps every text as it was typed', () => {
    const s = sun();
    expect(s.readings[0]?.angle.text).toBe('41°18.6′');
    expect(s.indexError?.text).toBe('1.4′ off the arc');
    expect(s.eyeHeight?.text).toBe('2.6 m');
    expect(s.fields).toEqual(forenoon);
  });
  test('an index error off the arc is negative: the sextant reads too little', () => {
    expect(sun().indexError?.arcminutes).toBeCloseTo(-1.4, 12);
    expect(sun({ indexError: '0.8 on' }).indexError?.arcminutes).toBeCloseTo(0.8, 12);
  });
  test('what is not given becomes an assumption', () => {
    const s = sight(without(forenoon, 'limb', 'indexError', 'eyeHeight'));
    expect(s.limb).toBe('lower');
    expect(s.assumptions.join('; ')).toMatch(
      /lower limb.*height of eye.*2 m.*index error.*10 °C.*1010 hPa/,
    );
  });
  test('seconds that were not written are taken as none, and it says so', () => {
    const of = (time: string) => sun({ time }).assumptions.join('; ');
    expect(of('2027-05-11 09:42 UTC')).toContain('no seconds were written: 09:42:00 is taken');
    expect(of('11 May 2027 09:42')).toContain('no seconds were written');
    expect(of('2027-05-11 09:42:17')).not.toContain('seconds');
  });
  test('readings too far apart for one time are doubted, near ones are not', () => {
    const apart = (...reading: string[]) =>
      sun({ reading, time: '2027-05-11 09:42:17 UTC' }).doubts.join();
    expect(apart('41°18.6′', '41°34.0′')).toMatch('15.4′ apart and have one time');
    expect(apart('41°18.6′', '41°33.0′')).toBe('');
  });
  test('a mistake in one of several entries says in which, with its text', () => {
    const reading = ['41°18.6′', '41°19.0′'];
    expect(wrong({ reading, time: ['2027-05-11 09:42:17 UTC', '09:43:17'] })).toThrow(
      /^Time 2 of 2: The date is missing.*\n {2}09:43:17\n/,
    );
    expect(wrong({ reading: ['41°78.6′', ...reading] })).toThrow(/^Reading 1 of 3: Minutes must/);
  });
  test('is frozen', () => {
    expect(Object.isFrozen(sun())).toBe(true);
    expect(Object.isFrozen(sun().readings)).toBe(true);
  });
  test('a star has no limb', () => {
    expect(of('Aldebaran').limb).toBe('centre');
    expect(() => of('Aldebaran', { limb: 'lower' })).toThrow(/no lower limb/);
  });
  test('several readings are averaged with their times', () => {
    const s = sun({
      reading: ['41°18.6′', '41°20.0′', '41°21.4′'],
      time: ['2027-05-11 09:42:17', '2027-05-11 09:42:37', '2027-05-11 09:42:57'],
    });
    expect(s.instant.toString()).toBe('2027-05-11 09:42:37 UTC');
    expect(observedAltitude(s).steps[0]?.result).toMatchObject({
      degrees: expect.closeTo(41 + 20 / 60, 10),
    });
  });
  test('a long run of readings is doubted', () => {
    const s = sun({
      reading: ['41°18.6′', '43°00.0′'],
      time: ['2027-05-11 09:42:17', '2027-05-11 09:50:17'],
    });
    expect(observedAltitude(s).flags.join()).toMatch(/over five minutes/);
  });
  test('a reading that does not go with the others is named', () => {
    const run = (third: string) =>
      observedAltitude(
        sun({
          reading: ['41°18.6′', '41°20.0′', third, '41°22.8′'],
          time: [
            '2027-05-11 09:42:17',
            '2027-05-11 09:42:37',
            '2027-05-11 09:42:57',
            '2027-05-11 09:43:17',
          ],
        }),
      ).flags.join();
    expect(run('41°21.4′')).toBe('');
    expect(run('41°31.4′')).toMatch(/Reading 3 lies 10.0′ above/);
  });
  test('of three readings it cannot be told which one is off', () => {
    const s = sun({
      reading: ['41°18.6′', '41°30.0′', '41°21.4′'],
      time: ['2027-05-11 09:42:17', '2027-05-11 09:42:37', '2027-05-11 09:42:57'],
    });
    expect(observedAltitude(s).flags.join()).toMatch(/three readings do not lie on one line/);
  });
  test('the watch error is taken off the time, carried on by the rate', () => {
    const s = sun({
      watch: { error: '12 s fast', rate: '2 s losing', checked: '2027-05-10 09:42:17 UTC' },
    });
    expect(s.instant.minus(sun().instant).seconds).toBeCloseTo(-10, 3);
    expect(s.watch?.sigma.seconds).toBe(0.5);
  });
  test('comes back the same from its JSON, and with a field changed', () => {
    const s = sun({ temperature: '21 °C', waterlineDistance: '0.4 nmi' });
    const again = sight(JSON.parse(JSON.stringify(s)) as SightFields);
    expect(observedAltitude(again).value.degrees).toBe(observedAltitude(s).value.degrees);
    expect(again.dr?.latDeg).toBe(s.dr?.latDeg);
    expect(sightWith(s, { eyeHeight: '3 m' }).eyeHeight?.metres).toBe(3);
    expect(s).toBeInstanceOf(Sight);
  });
  test('a printed almanac’s figures take the place of ours and are cited', () => {
    const place = almanacEntry({
      gha: '326°20.1′',
      declination: '17°53.4′ N',
      sd: '15.9′',
      hp: '0.1′',
      source: 'an almanac for 2027',
    });
    const w = observedAltitude(sun({ place }));
    expect(w.step('semidiameter').source).toContain('an almanac for 2027');
    expect(w.step('semidiameter').figures).toContain('15.9');
  });
});

describe('entries that cannot be', () => {
  test.each<[string, Record<string, unknown>, RegExp]>([
    ['a reading over 150°', { reading: '151°00.0′' }, /150°/],
    ['60 minutes', { reading: '41°60.0′' }, /under 60/],
    ['a bare sign on the index error', { indexError: '+1.4′' }, /sign alone/],
    ['an index error without a side', { indexError: '1.4′' }, /on or off/],
    ['a sign and a side', { indexError: '−1.4′ off the arc' }, /twice/],
    ['an index error over 1°', { indexError: '1°10′ on the arc' }, /more than 1°/],
    ['an unknown field', { eyeheight: '2 m' }, /no field 'eyeheight'/],
    ['an unknown body', { body: 'Moom' }, /Did you mean Moon/],
    ['an unknown horizon', { horizon: 'sea' }, /no horizon 'sea'/],
    ['a short horizon without its distance', { horizon: 'short' }, /distance of the waterline/],
    [
      'a distance without a short horizon',
      { horizon: 'bubble', waterlineDistance: '1 nmi' },
      /short/,
    ],
    ['no reading', { reading: [] }, /needs a reading/],
    ['no time', { time: [] }, /needs its time/],
    [
      'two times for three readings',
      { reading: ['1°', '2°', '3°'], time: ['2027-05-11 09:42:17', '2027-05-11 09:43:17'] },
      /3 readings and 2 times/,
    ],
    ['a watch that is neither fast nor slow', { watch: { error: '12 s' } }, /fast or slow/],
    [
      'a rate without its comparison',
      { watch: { error: '12 s fast', rate: '1 s gaining' } },
      /time of the comparison/,
    ],
    ['an unknown cause in the budget', { errorBudget: { wind: '1′' } }, /no cause 'wind'/],
    ['a model that is none', { refractionModel: 'best' }, /no refraction model/],
    ['a DR that is text', { dr: '19 S 1 W' }, /DR is a position/],
  ])('%s: an entry error', (_name, changes, message) => {
    expect(wrong(changes)).toThrow(EntryError);
    expect(wrong(changes)).toThrow(message);
  });
  test.each<[string, Record<string, unknown>, RegExp]>([
    ['an eye below sea level', { eyeHeight: '-2 m' }, /below sea level/],
    ['an eye at 501 m', { eyeHeight: metres(501) }, /unit/],
    ['an angle over 150°', { reading: Angle.degrees(151) }, /150°/],
    ['an angle far off the arc', { reading: Angle.degrees(-7) }, /off the arc/],
    ['hot air', { temperature: '700 °F' }, /unit/],
    ['thin air', { pressure: '30 hPa' }, /unit/],
    ['a waterline at no distance', { waterlineDistance: '0 m' }, /more than 0 m/],
  ])('%s: out of range', (_name, changes, message) => {
    expect(wrong(changes)).toThrow(OutOfRangeError);
    expect(wrong(changes)).toThrow(message);
  });
  test('a body below the horizon is refused with the reading shown', () => {
    expect(() => observedAltitude(sun({ reading: Angle.degrees(-3) }))).toThrow(OutOfRangeError);
    expect(() => observedAltitude(sun({ reading: Angle.degrees(-3) }))).toThrow(
      /below the horizon.*−3°00.0′/,
    );
  });
  test('a body at the horizon is worked and flagged', () => {
    const w = observedAltitude(sun({ reading: '0°30.0′' }));
    expect(Number.isFinite(w.value.degrees)).toBe(true);
    expect(w.flags.join()).toMatch(/minutes wrong/);
    expect(w.uncertainty.sigma.arcminutes).toBeGreaterThan(2);
  });
  test('a waterline beyond the horizon gives the sea horizon’s dip and says so', () => {
    const far = observedAltitude(sun({ waterlineDistance: '5 nmi' }));
    expect(far.value.degrees).toBe(observedAltitude(sun()).value.degrees);
    expect(far.flags.join()).toMatch(/beyond the sea horizon/);
  });
});
