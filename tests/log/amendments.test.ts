import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amendmentCode } from '../../src/log/amend/write-code.js';
import { amendmentNames, readAmendments, shownVariable } from '../../src/log/amend/read-code.js';
import type { Amendment } from '../../src/log/amend/amendment.js';
import { EntryError, SightLog } from '../../src/index.js';

const CSV = `round,sight,UTC,body,limb,reading,observer,height of eye (m),own one
dawn,1,2027-05-14 05:24:00,Altair,,31°71.6′,A,2.6,x
dawn,2,2027-05-14 05:25:10,Vega,,44°02.4′,A,2.6,
dawn,2,2027-05-14 05:25:50,Vega,,44°05.1′,A,2.6,
noon,1,2027-05-14 12:02:00,Sun,lower,70°11.0′,B,2.6,
`.replace('31°71.6′', '31°17.6′');
const log = () => SightLog.fromCsv(CSV);
const row = (l: SightLog, number: number) => l.readings()[number - 1];
const without = (l: SightLog) => l.readings().map((r) => ({ ...r, line: null }));

describe('a log is amended in a book', () => {
  it('an entry is corrected and kept as it was typed; the log before stays as it was', () => {
    const before = log();
    const after = before.amend((book) => {
      book.correct('1 Altair 05:24:00', {
        reading: { was: '31°17.6′', is: '31 11.6' },
        eyeHeight: '3',
      });
    });
    expect(row(after, 1)).toMatchObject({
      readingText: '31 11.6',
      eyeHeightText: '3 m',
      eyeHeightM: 3,
    });
    expect(row(after, 1)?.readingDeg).toBeCloseTo(31 + 11.6 / 60, 12);
    expect(row(before, 1)?.readingText).toBe('31°17.6′');
    expect(after.rows()[0]?.hoDeg).not.toBe(before.rows()[0]?.hoDeg);
  });

  it('what does not fit is refused with the sentence of the cell, and nothing is changed', () => {
    const refused = (enter: Parameters<SightLog['amend']>[0]) => {
      try {
        log().amend(enter);
      } catch (error) {
        return (error as Error).message;
      }
      return 'taken';
    };
    expect(refused((b) => b.correct(1, { reading: '31°71.6′' }))).toMatch(
      /^Reading 1, reading: .*60/,
    );
    expect(refused((b) => b.correct(1, { body: 'Sun' }))).toMatch(/limb of the Sun is missing/);
    expect(refused((b) => b.correct(1, { readng: '31°' }))).toMatch(/did you mean 'reading'/);
    expect(refused((b) => b.correct(9, { body: 'Sun' }))).toMatch(/no reading 9.*from 1 to 4/);
    expect(refused((b) => b.correct(1, { reading: { was: '31°', is: '32°' } }))).toMatch(
      /has reading '31°17.6′', not '31°'/,
    );
    expect(refused((b) => b.reject('2 Vega 05:24:00', 'haze'))).toMatch(
      /Reading 2 is '2 Vega 05:25:10'/,
    );
    expect(refused((b) => b.reject('1 Vega 05:25:50', 'haze'))).toMatch(
      /Is '3 Vega 05:25:50' meant/,
    );
    expect(refused((b) => b.reject(1, ' '))).toMatch(/Say why/);
    expect(refused((b) => b.correct(1, { accepted: 'no' }))).toMatch(/book\.reject/);
    expect(refused((b) => b.group([1, 2]))).toMatch(/differ in body/);
    expect(refused((b) => b.add({ body: 'Vega', utc: '2027-05-14 05:26:00' }))).toMatch(
      /reading is missing/,
    );
    expect(() => log().amend((b) => b.correct(1, { reading: 'x' }))).toThrow(EntryError);
  });

  it('a rejected reading stays with its reason and can be used again', () => {
    const without2 = log().amend((book) => book.reject([1, '2 Vega 05:25:10'], 'horizon hazy'));
    expect(without2.numRows()).toBe(4);
    expect(
      without2
        .rejected()
        .readings()
        .map((r) => r.reason),
    ).toEqual(['horizon hazy', 'horizon hazy']);
    expect(without2.rejected().toText()).toMatch(/\n2 of the 4 rows taken from the file\.$/);
    expect(without2.toText()).toMatch(/\n4 rows: 4 taken, 0 refused\.$/);
    const again = without2.amend((book) => book.accept(1));
    expect(row(again, 1)).toMatchObject({ accepted: true, reason: null });
  });

  it('a new reading joins its round and sight, or names its own', () => {
    const after = log().amend((book) => {
      expect(
        book.add({ utc: '2027-05-14 05:26:30', body: 'Vega', reading: '44°08.0′', observer: 'A' }),
      ).toBe(5);
      book.add({
        utc: '2027-05-14 05:30:00',
        body: 'Vega',
        reading: '44°30.0′',
        observer: 'A',
        ownOne: 'mine',
      });
      book.add({ utc: '2027-05-14 17:00:00', body: 'Sun', limb: 'upper', reading: '12°30.0′' });
    });
    expect(
      after
        .readings()
        .slice(4)
        .map((r) => [r.round, r.sight]),
    ).toEqual([
      ['dawn', '2'],
      ['dawn', '3'],
      ['2027-05-14 afternoon', '1'],
    ]);
    expect(after.toCsv()).toContain('mine');
    expect(after.round('dawn')).toHaveLength(3);
  });

  it('readings are made one sight, or set apart', () => {
    const apart = log().amend((book) => book.group(3));
    expect(apart.readings().map((r) => r.sight)).toEqual(['1', '2', '3', '1']);
    const joined = apart.amend((book) => book.group(['2 Vega 05:25:10', 3], { sight: 'V' }));
    expect(joined.round('dawn')).toHaveLength(2);
  });

  it('UTC that came from the watch follows a corrected watch; limb follows a corrected body', () => {
    const byWatch = SightLog.fromCsv(
      'watch time,watch error,body,reading\n2027-05-14 05:24:10,10 s fast,Vega,44°\n',
    );
    const after = byWatch.amend((book) => book.correct(1, { watchError: '4 s slow' }));
    expect(new Date(row(after, 1)?.utcMs ?? 0).toISOString()).toBe('2027-05-14T05:24:14.000Z');
    const sun = log().amend((book) => book.correct(1, { body: 'sun', limb: 'UL' }));
    expect(row(sun, 1)).toMatchObject({ body: 'Sun', limb: 'upper' });
  });

  it('a filtered log is amended by the same numbers and stays filtered', () => {
    const stars = log().filter((d: { body: string }) => d.body !== 'Sun');
    const after = stars.amend((book) => {
      book.reject(3, 'haze');
      book.add({ utc: '2027-05-14 05:40:00', body: 'Sirius', reading: '20°' });
    });
    expect(after.readings().map((r) => r.body)).toEqual(['Altair', 'Vega', 'Vega', 'Sirius']);
    expect(() => stars.amend((book) => book.reject(4, 'not shown'))).toThrow(/no reading 4/);
  });
});

/** Texts of all kinds, such as a hostile or careless hand may type. */
const anyText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 20 }),
  fc.constantFrom("'", '\\', '*/', '\n', '${x}', '\u2028', "'});"),
);
const names = fc.constantFrom('reading', 'body', 'utc', 'own one', 'constructor', 'remarks');
const amendment: fc.Arbitrary<Amendment> = fc.oneof(
  fc.record({
    kind: fc.constant('correct' as const),
    which: anyText,
    entries: fc.dictionary(names, fc.record({ was: anyText, is: anyText }), {
      noNullPrototype: true,
    }),
  }),
  fc.record({
    kind: fc.constant('add' as const),
    entries: fc.dictionary(names, anyText, { noNullPrototype: true }),
  }),
  fc.record({ kind: fc.constant('reject' as const), which: fc.array(anyText), reason: anyText }),
  fc.record({ kind: fc.constant('accept' as const), which: fc.array(anyText) }),
  fc.record({
    kind: fc.constant('group' as const),
    which: fc.array(anyText),
    round: anyText,
    sight: anyText,
  }),
);

describe('amendments as code', () => {
  it('names the variable that the cell of the editor shows', () => {
    expect(shownVariable('editLog({ log })', 'log')).toBe('log');
    expect(shownVariable("editLog({ passage }, { as: 'clean' })", 'passage')).toBe('passage');
    expect(shownVariable('const x = 1;\neditLog({\n  log: mine,\n})', 'log')).toBe('mine');
    expect(shownVariable('editLog({ log: read(mine) })', 'log')).toBe('log');
  });
  it('a reading taken between two seconds is called by the nearer one, as everywhere', () => {
    const late = SightLog.fromCsv(CSV.replace('05:25:10', '05:25:10.7'));
    const after = late.amend((book) => book.accept('2 Vega 05:25:11'));
    expect(after.numRows()).toBe(4);
  });
  it('any amendments and drafts are read back from the code as they were, and the code holds no more lines than they are', () => {
    const drafts = fc.array(
      fc.record({
        which: fc.option(anyText.filter((t) => t !== '')),
        entries: fc.dictionary(names, anyText, { noNullPrototype: true }),
      }),
      { maxLength: 3 },
    );
    fc.assert(
      fc.property(fc.array(amendment, { maxLength: 5 }), drafts, (amendments, typed) => {
        const code = amendmentCode({ log: 'log', as: 'amended' }, amendments, typed);
        expect(readAmendments(code)).toEqual({ amendments, drafts: typed });
        expect(amendmentNames(code)).toEqual({ log: 'log', as: 'amended' });
        expect(code.split(/[\n\r\u2028\u2029]/)).toHaveLength(3 + amendments.length + typed.length);
      }),
      { numRuns: 300 },
    );
  });

  it('what the code does is what the amendments say', () => {
    fc.assert(
      fc.property(fc.array(amendment, { minLength: 1, maxLength: 5 }), (amendments) => {
        const code = amendmentCode({ log: 'log', as: 'amended' }, amendments);
        const seen: unknown[] = [];
        const book = new Proxy(
          {},
          {
            get:
              (_, kind) =>
              (...args: unknown[]) =>
                void seen.push([kind, ...args]),
          },
        );
        new Function('log', code)({ amend: (enter: (b: unknown) => void) => enter(book) });
        const one = (list: readonly string[]) => (list.length === 1 ? list[0] : list);
        expect(seen).toEqual(
          amendments.map((a) => {
            if (a.kind === 'correct') return [a.kind, a.which, a.entries];
            if (a.kind === 'add') return [a.kind, a.entries];
            if (a.kind === 'reject') return [a.kind, one(a.which), a.reason];
            if (a.kind === 'accept') return [a.kind, one(a.which)];
            return [a.kind, one(a.which), { round: a.round, sight: a.sight }];
          }),
        );
      }),
      { numRuns: 300 },
    );
  });

  it('code changed by hand beyond that is not taken for amendments', () => {
    const sound = amendmentCode({ log: 'log', as: 'amended' }, [{ kind: 'accept', which: ['1'] }]);
    expect(readAmendments(sound)).not.toBeNull();
    for (const change of [
      '  book.correct(1, x);',
      '  for (;;) {}',
      "  book.accept('1'); evil();",
      '  book.add({ body: 1 });',
    ])
      expect(readAmendments(sound.replace('\n});', `\n${change}\n});`)), change).toBeNull();
    expect(readAmendments(`${sound}\namended.toCsv()`)).toBeNull();
    expect(readAmendments(sound.replace('\n});', '\n\n  // haze, said B\n});'))).not.toBeNull();
  });
});

it('an amended log goes through CSV and JSON as it is', () => {
  const after = log().amend((book) => {
    book.correct(1, { reading: '31 11.6', remarks: '=1+1', ownOne: 'two\nlines' });
    book.reject([2, 3], 'horizon hazy, "they" said');
    book.add({ utc: '2027-05-14 05:40:00', body: 'Sirius', reading: '20°', temperature: '70 °F' });
  });
  expect(without(SightLog.fromCsv(after.toCsv()))).toEqual(without(after));
  expect(without(SightLog.fromJson(after.toJson()))).toEqual(without(after));
});
