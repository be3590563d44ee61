/** What single values and lists of them look like in a notebook. The sights are invented: nothing of the trade is checked here. */
import { describe, expect, it } from 'vitest';
import { bundleOf, inspectValue } from '../../src/cells/index.js';
import * as library from '../../src/index.js';
import { angle, duration, Instant, length, position, sight } from '../../src/index.js';

const dr = position('15°30′ S', '005°10′ W');
const time = '2027-05-16 18:20:00 UTC';
const star = (body: library.BodyName, reading: string) =>
  sight({ body, reading, time, eyeHeight: '2.6 m', dr, indexError: '0.8 off' });
const instant = Instant.utc(time);
const shown = async (value: unknown) => (await bundleOf(value)).data as Record<string, string>;

describe('text as the value of a cell', () => {
  it('of several lines stands as it is, of one line in quotes, inside another value as its source', async () => {
    expect((await shown('UTC,body\n10:12,Sun'))['text/plain']).toBe('UTC,body\n10:12,Sun');
    expect((await shown('10:12'))['text/plain']).toBe("'10:12'");
    expect((await shown(['a\nb']))['text/plain']).toBe("[ 'a\\nb' ]");
  });
});

describe('a value inside another', () => {
  it('reads as a navigator writes it', () => {
    expect(inspectValue([angle('1°'), angle('41°18.6′')])).toBe('[ 1°00.0′, 41°18.6′ ]');
    expect(inspectValue({ dr, instant })).toBe(`{ dr: ${dr.toString()}, instant: ${time} }`);
    expect(inspectValue({ sight: star('Sirius', '50°00.0′') })).toBe(
      `{ sight: Sirius, 50°00.0′ at ${time} }`,
    );
  });

  it('is one line where its own text has several', () => {
    const working = library.observedAltitude(star('Sirius', '50°00.0′'));
    expect(inspectValue([working]).split('\n').length).toBeLessThan(4);
    expect(inspectValue([working])).toContain('49°57.1′');
  });
});

describe('a value that is the result of a cell', () => {
  it('a log on paper says once what all rows have in common, and keeps every column that differs', async () => {
    const rows = (heights: readonly string[]) =>
      heights.map((height, i) => `2027-05-16 18:2${i}:00,Sirius,50 00.${i},${height}`);
    const html = async (heights: readonly string[]) =>
      (
        await shown(
          library.SightLog.fromCsv(['UTC,body,reading,height of eye', ...rows(heights)].join('\n')),
        )
      )['text/html']!;
    const alike = await html(['2.6 m', '2.6 m']);
    expect(alike).toContain('body Sirius · height of eye (m) 2.6');
    expect(alike).not.toContain(
      '<td style="white-space:nowrap;padding:2px 8px;text-align:left">Sirius',
    );
    const text = ['UTC,body,reading,height of eye', ...rows(['2 m', '2 m', '3 m'])].join('\n');
    expect(library.SightLog.fromCsv(text).toHtml(2)).toMatch(/In every row shown: .*body Sirius/);
    expect(await html(['2.6 m', '3.0 m'])).toMatch(/<th[^>]*>height of eye \(m\)<\/th>/);
    expect(await html(['2.6 m'])).toMatch(/<th[^>]*>body<\/th>/);
  });

  it('a sight is its entries, with what was assumed', async () => {
    const { 'text/plain': text, 'text/html': html } = await shown(star('Sirius', '50°00.0′'));
    expect(text!.split('\n').slice(0, 4)).toEqual([
      'Sight: Sirius',
      '  Reading        50°00.0′',
      `  Time           ${time}`,
      '  Horizon        the sea',
    ]);
    expect(text).toContain('Index error    0.8′ off the arc');
    expect(text).toContain('assumed: the air is taken at 10 °C');
    expect(html).toContain('<i>assumed: the air');
    expect(html).not.toMatch(/<script/);
  });

  it('shows every reading of a sight with its own time', async () => {
    const two = sight({
      body: 'Sun',
      reading: ['41°18.6′', '41°20.2′'],
      time: ['2027-05-11 09:42:17 UTC', '2027-05-11 09:42:47 UTC'],
      remarks: '<b>haze</b>',
    });
    const { 'text/plain': text, 'text/html': html } = await shown(two);
    expect(text).toContain('Reading 2  41°20.2′ at 2027-05-11 09:42:47 UTC');
    expect(text).toContain('Time       2027-05-11 09:42:32 UTC, the mean');
    expect(html).toContain('&lt;b&gt;haze');
  });

  it('a place is that of an almanac', async () => {
    const { 'text/plain': text } = await shown(library.apparentPlace('Sun', instant));
    expect(text).toMatch(/^Sun at 2027-05-16 18:20:00 UTC\n {2}GHA +\d{3}°\d\d\.\d′\n/);
    expect(text).toMatch(/Semi-diameter +15\.8′/);
    expect(text).not.toMatch(/degrees|undefined/);
    expect((await shown(library.apparentPlace('Sirius', instant)))['text/plain']).not.toContain(
      'parallax',
    );
  });

  it('what shares an error is said in words, and a small share is not nought', async () => {
    const uncertainty = new library.Uncertainty([
      { cause: 'dip', sigmaArcmin: 0.4 },
      {
        cause: 'index',
        sigmaArcmin: 0.02,
        sharedKey: 'index:sextant 1:2027-05-05 1.2′ on the arc',
      },
    ]);
    const { 'text/plain': text } = await shown(uncertainty);
    expect(text).toContain(' sextant 1, 2027-05-05 1.2′ on the arc');
    expect(text).toContain('< 1 %');
  });

  it('an uncertainty is its causes, the greatest first', async () => {
    const { uncertainty } = library.observedAltitude(star('Sirius', '50°00.0′'));
    const lines = (await shown(uncertainty))['text/plain']!.split('\n');
    expect(lines[0]).toBe('Uncertainty: ± 0.8′, 1σ');
    const shares = lines.slice(2).map((line) => Number(/(\d+) %/.exec(line)![1]));
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    expect(shares.reduce((sum, share) => sum + share)).toBeGreaterThan(97);
  });

  it('a report of slips is a table with odds', async () => {
    const report = library.findSlip(star('Sirius', '51°14.6′'), dr);
    const { 'text/plain': text, 'text/html': html } = await shown(report);
    expect(html).toMatch(/Slips; residual as it stands [+−]\d+\.\d′/);
    expect(html!.match(/<tr>/g)).toHaveLength(report.likeliest.length + 1);
    expect(text).toBe(report.toString());
  });

  it.each([
    ['0.5 s', 0.5],
    ['−3 s', -3],
    ['59 s', 59],
    ['1 m 40 s', 100],
    ['−2.4 s', -2.4],
  ])('a duration is %s', (text, seconds) => {
    expect(library.Duration.seconds(seconds).toString()).toBe(text);
  });

  it('a length is in metres, or in miles from one mile up', () => {
    expect(library.Length.metres(2.6).toString()).toBe('2.6 m');
    expect(library.Length.metres(129_640).toString()).toBe('70.0 nm');
    expect(length(library.Length.metres(129_640).toString()).nauticalMiles).toBe(70);
    expect(() => length('3 sm')).toThrow(/sea miles or statute miles/);
    expect(duration('2 h').toString()).toBe('2 h 00 m 00 s');
  });
});

describe('a list of values of one kind', () => {
  it('is a table', async () => {
    const { 'text/plain': text, 'text/html': html } = await shown(library.bodiesUp(dr, instant));
    const [head, first] = text!.split('\n');
    expect(head).toMatch(/^Body +Altitude +Azimuth +Set the sextant to +Magnitude$/);
    expect(first).toMatch(/^\w+ +\d\d°\d\d\.\d′ +\d{3}° +\d\d°\d\d\.\d′ +[+−]?\d\.\d$/);
    expect(html).toContain('<th');
    expect(html).not.toContain('<caption');
  });

  it('of sights, lines, residuals and places too', async () => {
    const round = [
      star('Sirius', '49°20.0′'),
      star('Canopus', '37°14.0′'),
      star('Spica', '34°4.0′'),
    ];
    const fix = library.fix(round);
    for (const list of [
      round,
      fix.lines,
      fix.residuals,
      library.fix(round.slice(0, 1)).flags,
      [library.apparentPlace('Sun', instant)],
    ]) {
      const { 'text/plain': text } = await shown(list);
      expect(text!.split('\n')).toHaveLength(list.length + 1);
      expect(text).not.toContain('{');
    }
  });

  it('is cut at fifty, and says so', async () => {
    const { 'text/plain': text } = await shown(Array(60).fill(star('Sirius', '49°20.0′')));
    expect(text!.split('\n')[0]).toBe('The first 50 of 60');
    expect(text!.split('\n')).toHaveLength(52);
  });

  it('of different kinds, or none, is left as it is', async () => {
    expect(await shown([])).toEqual({ 'text/plain': '[]' });
    const mixed = [star('Sirius', '49°20.0′'), library.apparentPlace('Sun', instant)];
    expect(Object.keys(await shown(mixed))).toEqual(['text/plain']);
  });
});
