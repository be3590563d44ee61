import { afterEach, describe, expect, test } from 'vitest';
import {
  Angle,
  bestSet,
  bodiesUp,
  horizonWindows,
  Instant,
  Length,
  OutOfRangeError,
  position,
  Position,
  provideEphemeris,
  providedEphemeris,
} from '../../src/index.js';
import { rhumbDestination } from '../../src/core/line/index.js';
import { solarSystemAt } from '../../src/core/sky/provide-ephemeris.js';
import { ViewDataError } from '../../src/views/check.js';
import { MIME } from '../../src/views/mime.js';
import { svgMarkup } from '../../src/views/svg/svg-node.js';
import { deckRows, deckTimes } from '../../src/views/sky/deck-table.js';
import { checkSkyData, skyData } from '../../src/views/sky/sky-data.js';
import { SkyModel, startSettings } from '../../src/views/sky/sky-model.js';
import { blockedArcs, skySvg } from '../../src/views/sky/sky-svg.js';
import { skyBundle, skyScene } from '../../src/views/sky/sky-view.js';
import { windowsText } from '../../src/views/sky/sky-text.js';
import { timeOfDay } from '../../src/views/sky/time-entry.js';
import { eveningSky } from '../support/make-views.js';

const SEA = position('15°30′ S', '005°10′ W');
const EVENING = '2027-05-14 18:40:00 UTC';
const data = skyData({
  dr: SEA,
  time: EVENING,
  eyeHeight: '2.6 m',
  indexError: '1.4′ off the arc',
});
const library = providedEphemeris();
afterEach(() => provideEphemeris(library));

describe('the view works out what the core gives', () => {
  const options = {
    lowest: Angle.degrees(15),
    highest: Angle.degrees(70),
    eyeHeight: Length.metres(2.6),
    indexError: Angle.arcminutes(-1.4),
  };
  test('bodies, presets, windows and set are those of the library, to the last digit, with no ephemeris but its own pieces', () => {
    const at = Instant.utc(EVENING);
    const up = bodiesUp(SEA, at, options);
    const set = bestSet(SEA, at, options);
    const windows = horizonWindows(SEA, Instant.fromEpochMs(data.noonMs));
    provideEphemeris(undefined);
    const model = new SkyModel(checkSkyData(JSON.parse(JSON.stringify(data))));
    const settings = startSettings(model.data);
    const seen = model.moment(settings).bodies.filter((b) => b.isInReach);
    expect(seen.map((b) => [b.body, b.altDeg, b.azDeg, b.presetDeg])).toEqual(
      up.map((b) => [b.body, b.altitude.degrees, b.azimuth.degrees, b.preset.degrees]),
    );
    expect(up.length).toBeGreaterThan(15);
    const found = model.bestSet(settings);
    expect(found.set?.bodies.map((b) => b.body)).toEqual(set.bodies.map((b) => b.body));
    expect(found.set?.radialNm).toBe(set.radialNm);
    expect(model.windows(settings.atMs)).toEqual(windows);
  });

  test('at every hour of the day, its margins and the edges of the granules, the pieces give what the whole file gives', () => {
    const edges = granuleEdges(data.noonMs, data.noonMs + 86_400_000);
    const model = new SkyModel(data);
    const hours = Array.from({ length: 25 }, (_, h) => data.noonMs + h * 3_600_000);
    const times = [...hours, ...edges].filter((ms) => ms >= model.firstMs && ms <= model.lastMs);
    const whole = times.map((ms) =>
      bodiesUp(SEA, Instant.fromEpochMs(ms), options).map((b) => b.azimuth.degrees),
    );
    provideEphemeris(undefined);
    times.forEach((ms, i) => {
      const s = { ...startSettings(data), atMs: ms };
      const moment = model.moment(s);
      if (moment.light === 'day') return;
      const ours = moment.bodies.filter((b) => b.isInReach).map((b) => b.azDeg);
      expect(ours, Instant.fromEpochMs(ms).toString()).toEqual(whole[i]);
    });
    expect(model.sunAt(model.firstMs - 3_600_000).altDeg).toBeGreaterThan(0);
    expect(model.sunAt(model.lastMs + 3_600_000).altDeg).toBeGreaterThan(0);
  });

  test('on days when a granule of some body ends, at noons all round the Earth', () => {
    for (const lon of ['179° E', '090° W', '000° E', '135° E'])
      for (let day = 1; day <= 30; day += 3) {
        const time = `2027-06-${String(day).padStart(2, '0')} 06:00:00 UTC`;
        const made = skyData({ dr: position('10° N', lon), time });
        provideEphemeris(undefined);
        const model = new SkyModel(made);
        for (const ms of [model.firstMs, (model.firstMs + model.lastMs) / 2, model.lastMs])
          model.moment({ ...startSettings(made), atMs: ms });
        provideEphemeris(library);
      }
  });

  test('a time outside the day is refused in words, not worked out wrongly', () => {
    const model = new SkyModel(data);
    for (const ms of [model.firstMs - 1, model.lastMs + 1, NaN])
      expect(() => model.moment({ ...startSettings(data), atMs: ms })).toThrow(OutOfRangeError);
    expect(() => model.moment({ ...startSettings(data), atMs: model.lastMs + 1 })).toThrow(
      /holds the sky from 2027-05-14 12:2\d:00 UTC to 2027-05-15 12:2\d:00 UTC/,
    );
  });

  test('data whose pieces do not hold their day end in an error, not in figures', () => {
    const other = skyData({ dr: SEA, time: '2027-09-14 18:40:00 UTC' });
    const mixed = checkSkyData({ ...data, ephemeris: other.ephemeris });
    expect(() => new SkyModel(mixed).moment(startSettings(mixed))).toThrow(/cut short/);
  });

  test('with course and speed the DR runs along the rhumb line', () => {
    const run = skyData({ dr: SEA, time: EVENING, course: '312°', speed: '5.2 kn' });
    const at = new SkyModel(run).drAt(run.atMs + 3 * 3_600_000);
    const there = rhumbDestination(SEA, Angle.degrees(312), Length.nauticalMiles(3 * 5.2));
    expect(at.latDeg).toBeCloseTo(there.latDeg, 9);
    expect(at.lonDeg).toBeCloseTo(there.lonDeg, 9);
  });
});

/** Times at which a series of the ephemeris goes over to its next granule, found by where it reads anew. */
function granuleEdges(fromMs: number, toMs: number): number[] {
  const source = library;
  if (!source) throw new Error('the library lends no ephemeris here');
  const reads: number[] = [];
  const STEP = 600_000;
  let count = 0;
  provideEphemeris({
    name: source.name,
    read: (offset, length) => ((count += 1), source.read(offset, length)),
  });
  for (let ms = fromMs; ms <= toMs; ms += STEP) {
    const before = count;
    const { tt } = Instant.fromEpochMs(ms);
    const state = {
      sun: three(),
      sunRate: three(),
      earth: three(),
      earthRate: three(),
      nutation: three(),
    };
    solarSystemAt(tt).earthState(tt, state);
    solarSystemAt(tt).planet('Venus', tt, three());
    if (ms > fromMs && count > before) reads.push(ms - STEP, ms);
  }
  provideEphemeris(source);
  return reads;
}
const three = () => new Float64Array(3);

describe('what is said when there is little to take', () => {
  test('by day the set gives its sentence and the bodies of the day stay', () => {
    const made = skyData({ dr: SEA, time: '2027-05-14 15:00:00 UTC' });
    const model = new SkyModel(made);
    const scene = skyScene(model, startSettings(made));
    expect(scene.moment.light).toBe('day');
    expect(scene.found.set).toBeNull();
    expect(scene.moment.bodies.map((b) => b.body)).toContain('Sun');
    for (const b of scene.moment.bodies) expect(['Sun', 'Moon', 'Venus']).toContain(b.body);
    const text = skyBundle(made)['text/plain'] as string;
    expect(text).toMatch(/No set: (?:no body is|only [A-Z][\w ,]+ (?:is|are)) in reach/);
    expect(text).toMatch(/Sun, lower limb +\d{3}°/);
  });

  test('without a window the reason is said', () => {
    const cape = Position.degrees(70, 20);
    const summer = skyBundle(skyData({ dr: cape, time: '2027-06-21 23:00:00 UTC' }))['text/plain'];
    expect(summer).toContain('the Sun never comes 6° below');
    expect(windowsText([], false)).toContain('more than 12° below');
  });

  test('a body below the horizon has no preset, and a body taken off is in no set', () => {
    const model = new SkyModel(data);
    const settings = startSettings(data);
    expect(model.presetAt('Vega', data.noonMs, settings)).toBeNaN();
    const first = model.bestSet(settings);
    const away = first.set?.bodies[0]?.body;
    if (!away) throw new Error('a set was expected');
    const without = model.bestSet({ ...settings, hidden: [away] });
    expect(without.set?.bodies.map((b) => b.body)).not.toContain(away);
    expect(without.set?.radialNm ?? 0).toBeGreaterThanOrEqual(first.set?.radialNm ?? 1);
  });
});

describe('the table for the deck', () => {
  const model = new SkyModel(data);
  const settings = startSettings(data);
  const scene = skyScene(model, settings);
  const times = deckTimes(settings.atMs, scene.windows, [model.firstMs, model.lastMs]);
  const rows = deckRows(model, scene.moment, scene.found, settings, times);

  test('gives presets every ten minutes inside the window, the chosen moment among them', () => {
    expect(times).toContain(data.atMs);
    times.forEach((ms, i) => expect(ms - (times[0] as number)).toBe(i * 600_000));
    const [w] = scene.windows;
    for (const ms of times) {
      expect(ms).toBeGreaterThan((w?.starts.epochMs ?? 0) - 300_001);
      expect(ms).toBeLessThan((w?.ends.epochMs ?? 0) + 300_001);
    }
  });

  test('numbers the set from the east and puts it first; others stand in order of azimuth', () => {
    expect(rows.slice(0, 5).map((r) => r.number)).toEqual([1, 2, 3, 4, 5]);
    const east = rows.slice(0, 5).map((r) => Math.sin((parseInt(r.azimuth) * Math.PI) / 180));
    expect(east).toEqual([...east].sort((a, b) => b - a));
    const rest = rows.filter((r) => r.group === 'reach').map((r) => parseInt(r.azimuth));
    expect(rest).toEqual([...rest].sort((a, b) => a - b));
    for (const r of rows) expect(r.magnitude).not.toBe('−0.0');
  });
});

describe('times as they are typed', () => {
  const day = new SkyModel(data);
  test('a clock time is looked for between noon and noon', () => {
    expect(timeOfDay('18:42', day)).toBe(Date.UTC(2027, 4, 14, 18, 42));
    expect(timeOfDay('0542', day)).toBe(Date.UTC(2027, 4, 15, 5, 42));
    expect(timeOfDay('2027-05-14 19:00:30 UTC', day)).toBe(Date.UTC(2027, 4, 14, 19, 0, 30));
  });
  test('others are named', () => {
    for (const wrong of ['25:10', 'soon', '', '18:99'])
      expect(() => timeOfDay(wrong, day)).toThrow();
    expect(() => timeOfDay('2027-05-16 18:00:00 UTC', day)).toThrow(/lies outside/);
  });
});

describe('data', () => {
  test('are inputs of a few kilobytes, with nothing worked out in them', () => {
    const keys = Object.keys(skyBundle(data)[MIME.sky] as object).sort();
    expect(keys).toEqual(
      'atMs bodies count courseDeg eyeHeightM faintest format highestDeg horizon indexErrorArcmin latDeg lonDeg lowestDeg moonGlareDeg noonMs sharedArcmin sigmaArcmin speedKn ephemeris'
        .split(' ')
        .sort(),
    );
    expect(JSON.stringify(data).length).toBeLessThan(12_000);
  });
  test('out of bounds they are refused with the field named', () => {
    const wrong: readonly (readonly [string, unknown])[] = [
      ['latDeg', 91],
      ['count', 2],
      ['count', 4.5],
      ['atMs', data.noonMs - 1],
      ['bodies', ['Planet Nine']],
      ['horizon', [{ fromDeg: 0, toDeg: 400 }]],
      ['highestDeg', 10],
      ['eyeHeightM', NaN],
    ];
    for (const [name, value] of wrong) {
      expect(() => checkSkyData({ ...data, [name]: value }), name).toThrow(ViewDataError);
      expect(() => checkSkyData({ ...data, [name]: value }), name).toThrow(new RegExp(name));
    }
  });
  test('options that cannot be read name themselves', () => {
    const given = { dr: SEA, time: EVENING };
    expect(() => skyData({ ...given, time: 'tonight' })).toThrow(/not a date and time in UTC/);
    expect(() => skyData({ ...given, indexError: '1.4' })).toThrow(/on or off the arc/);
    expect(() => skyData({ ...given, lowest: '70°', highest: '15°' })).toThrow(OutOfRangeError);
  });
});

test('arcs without a horizon are what the usable ones leave', () => {
  expect(blockedArcs([])).toEqual([]);
  expect(blockedArcs([{ fromDeg: 270, toDeg: 90 }])).toEqual([{ fromDeg: 90.5 - 0.5, toDeg: 270 }]);
  const shut = skyData({ dr: SEA, time: EVENING, horizon: [{ from: '270°', to: '090°' }] });
  const scene = skyScene(new SkyModel(shut), startSettings(shut));
  for (const b of scene.found.set?.bodies ?? [])
    expect(Math.cos(b.azimuth.radians)).toBeGreaterThanOrEqual(0);
  expect(scene.found.set).not.toBeNull();
});

test('every body above the horizon is in the drawing, at any width', () => {
  const made = eveningSky();
  const scene = skyScene(new SkyModel(made), startSettings(made));
  for (const width of [290, 600, 1000]) {
    const markup = svgMarkup(skySvg(scene, width));
    for (const b of scene.moment.bodies)
      expect(markup).toContain(`data-body="${b.body.replace("'", '&#39;')}"`);
    expect(markup).not.toMatch(/NaN|undefined|Infinity/);
  }
});
