import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  apparentPlace,
  computedAltitude,
  Instant,
  observedAltitude,
  position,
  sight,
} from '../../src/index.js';
import { appearance, newPlaceNumbers, placeKernel } from '../../src/core/sky/index.js';
import { benchLight, faintestMagnitude } from '../../src/views/bench/bench-light.js';
import { benchCsv } from '../../src/views/bench/bench-log.js';
import { benchPhase, litFraction } from '../../src/views/bench/bench-phase.js';
import { benchSentences } from '../../src/views/bench/bench-score.js';
import { markAt } from '../../src/views/bench/bench-truth.js';
import { discPoint, litEdge } from '../../src/lab/render/bench/draw-body.js';
import { imagesOf } from '../../src/lab/render/bench/draw-field.js';
import { dangerOf } from '../../src/lab/render/bench/eye-safety.js';
import { benchData, checkBenchData } from '../../src/views/bench/bench-data.js';
import { BenchSky } from '../../src/views/bench/bench-sky.js';
import { fieldPoint, invertedTiltedAngle, tiltedAngle } from '../../src/views/bench/optics.js';

const angleIn = (min: number, max: number) => fc.double({ min, max, noNaN: true });

test('at random states the limb stands on the horizon in the field where the core says it does, within 0.1′', () => {
  let most = 0;
  fc.assert(
    fc.property(
      angleIn(-35, 35),
      fc.integer({ min: 0, max: 10_000 }),
      angleIn(0, 20),
      angleIn(-5, 5),
      angleIn(-0.6, 0.6),
      fc.constantFrom('Sun', 'Moon', 'Venus', 'Mars', 'Jupiter', 'Saturn', 'Canopus', 'Vega'),
      (lat, seconds, eyeHeightM, indexErrorArcmin, pitch, body) => {
        const data = benchData({
          body: body as 'Sun',
          time: '2027-05-11 09:00:00 UTC',
          position: position(`${Math.abs(lat).toFixed(3)}° ${lat < 0 ? 'S' : 'N'}`, '005° W'),
          eyeHeight: `${Number(eyeHeightM.toFixed(1))} m`,
          indexErrorArcmin,
        });
        const at = data.fromMs + seconds * 1000;
        const sky = new BenchSky(data);
        const seen = sky.bodyAt(at);
        if (!(seen.lowerDeg > 3 && seen.lowerDeg < 80)) return;
        const limb = data.limb === 'lower' ? -1 : data.limb === 'upper' ? 1 : 0;
        const reading = sky.readingAt(at, limb, indexErrorArcmin);
        const pointing = { panDeg: 0, pitchDeg: pitch, tiltDeg: 0 };
        const body_ = fieldPoint(
          { rightDeg: 0, upDeg: limb === 1 ? seen.upperDeg : seen.lowerDeg },
          pointing,
          reading - indexErrorArcmin / 60,
        );
        const sea = fieldPoint({ rightDeg: 0, upDeg: -seen.dipArcmin / 60 }, pointing, 0);
        const gap = Math.abs((body_?.yArcmin ?? NaN) - (sea?.yArcmin ?? NaN));
        most = Math.max(most, gap);
        expect(gap).toBeLessThan(0.1);
      },
    ),
    { numRuns: 400 },
  );
  expect(most).toBeGreaterThan(0);
});

test('rocked by β, the body meets the horizon at the angle s of the right-angled triangle, sin h = sin s cos β', () => {
  fc.assert(
    fc.property(angleIn(5, 70), angleIn(-15, 15), (altDeg, tiltDeg) => {
      const turned = tiltedAngle(altDeg, tiltDeg);
      // Swung so that the body lies in the plane of the arc: Napier, tan of the side along the horizon = cos(90° − β) tan s.
      const rad = Math.PI / 180;
      const panDeg = -Math.atan(Math.sin(tiltDeg * rad) * Math.tan(turned * rad)) / rad;
      const at = fieldPoint(
        { rightDeg: 0, upDeg: altDeg },
        { panDeg, pitchDeg: 0, tiltDeg },
        turned,
      );
      expect(at?.yArcmin).toBeCloseTo(0, 6);
      expect(at?.xArcmin).toBeCloseTo(0, 6);
    }),
  );
});

test('a ray turned through the mirrors keeps its lowest point upright: any rock lifts the body off the horizon', () => {
  for (const tiltDeg of [-10, -3, 3, 10]) {
    const rocked = tiltedAngle(40, tiltDeg);
    expect(rocked).toBeGreaterThan(40);
  }
});

const NIGHTFALL = '2027-05-14 18:30:00 UTC';
const ASHORE = position('15°55.2′ S', '005°43.1′ W');
type Body = Parameters<typeof benchData>[0]['body'];

test('a perfect observer’s readings of every kind of body, worked by the library as sights, give no intercept over 0.1′', () => {
  let worked = 0;
  for (const body of ['Sun', 'Moon', 'Venus', 'Mars', 'Jupiter', 'Saturn', 'Sirius'] as const)
    for (const horizon of ['natural', 'artificial'] as const)
      for (let hour = 0; hour < 24; hour += 2) {
        const data = benchData({
          body,
          horizon,
          time: Instant.fromEpochMs(Date.UTC(2027, 4, 14, hour)),
          position: ASHORE,
          eyeHeight: '2.6 m',
        });
        const sky = new BenchSky(data);
        const seen = sky.bodyAt(data.fromMs);
        if (!(seen.lowerDeg > 11 && seen.lowerDeg < 70)) continue;
        const limb = data.limb === 'lower' ? -1 : data.limb === 'upper' ? 1 : 0;
        const taken = sight({
          body,
          ...(data.limb === 'centre' ? {} : { limb: data.limb }),
          reading: `${sky.readingAt(data.fromMs, limb, 0).toFixed(6)}°` as '1°',
          time: Instant.fromEpochMs(data.fromMs),
          ...(horizon === 'artificial' ? { horizon } : { eyeHeight: '2.6 m' as const }),
          temperature: '15 °C',
          pressure: '1015 hPa',
          dr: ASHORE,
        });
        const { gha, declination } = apparentPlace(body, taken.instant);
        const hc = computedAltitude(ASHORE, gha, declination).altitude.degrees;
        expect(
          Math.abs(observedAltitude(taken).value.degrees - hc) * 60,
          `${body} ${hour}`,
        ).toBeLessThan(0.1);
        worked++;
      }
  expect(worked).toBeGreaterThan(30);
});

test('over the artificial horizon the limbs of the two images touch at the doubled angle, within 0.1′', () => {
  for (const limb of ['lower', 'upper'] as const) {
    const data = benchData({
      body: 'Sun',
      limb,
      horizon: 'artificial',
      time: '2027-05-11 10:00:00 UTC',
      position: ASHORE,
    });
    const sky = new BenchSky(data);
    const body = sky.bodyAt(data.fromMs);
    const side = limb === 'lower' ? -1 : 1;
    const turnedDeg = sky.readingAt(data.fromMs, side, 0);
    expect(turnedDeg).toBeCloseTo(2 * (limb === 'lower' ? body.lowerDeg : body.upperDeg), 6);
    const pointing = { panDeg: 0, pitchDeg: -(body.lowerDeg + body.upperDeg) / 2, tiltDeg: 0 };
    const { reflected, direct } = imagesOf({ way: 'artificial', turnedDeg });
    const at = (image: typeof direct) => discPoint(body, [0, side], pointing, image);
    expect(Math.abs((at(reflected)?.yArcmin ?? NaN) - (at(direct)?.yArcmin ?? NaN))).toBeLessThan(
      0.1,
    );
    // One disc above the other: the middles stand a whole diameter apart.
    const middles = [reflected, direct].map(
      (i) => discPoint(body, [0, 0], pointing, i)?.yArcmin ?? NaN,
    );
    expect(Math.abs((middles[0] as number) - (middles[1] as number))).toBeCloseTo(
      60 * (body.upperDeg - body.lowerDeg),
      1,
    );
  }
});

test('an inverted sextant brings the horizon up to the star at the same reading, and least when upright', () => {
  const data = benchData({
    body: 'Canopus',
    time: NIGHTFALL,
    position: ASHORE,
    eyeHeight: '2.6 m',
  });
  const sky = new BenchSky(data);
  const body = sky.bodyAt(data.fromMs);
  const turnedDeg = -sky.readingAt(data.fromMs, 0, 0);
  const pointing = { panDeg: 0, pitchDeg: body.lowerDeg, tiltDeg: 0 };
  const horizon = fieldPoint({ rightDeg: 0, upDeg: -body.dipArcmin / 60 }, pointing, turnedDeg);
  expect(Math.abs(horizon?.yArcmin ?? NaN)).toBeLessThan(0.1);
  fc.assert(
    fc.property(angleIn(5, 70), angleIn(-15, 15), (altDeg, tiltDeg) => {
      const s = invertedTiltedAngle(altDeg, tiltDeg);
      // The horizon point that the plane of the arc meets lies on the level, s from the star: napier, sin of the side along the horizon.
      const rad = Math.PI / 180;
      const rightDeg = -Math.asin(Math.sin(s * rad) * Math.sin(tiltDeg * rad)) / rad;
      const at = fieldPoint({ rightDeg, upDeg: 0 }, { panDeg: 0, pitchDeg: altDeg, tiltDeg }, -s);
      expect(at?.yArcmin).toBeCloseTo(0, 6);
      expect(at?.xArcmin).toBeCloseTo(0, 6);
      expect(s).toBeGreaterThanOrEqual(altDeg - 1e-9);
    }),
  );
});

test('the Moon’s phase and bright limb: 1992 April 12, 0h TD: k 0.679, position angle 285.0°', () => {
  // J. Meeus, Astronomical Algorithms, 2nd ed., example 48.a: k = 0.6786, χ = 285.0° (from memory).
  const at = Instant.fromJulianDates({ tt: 2448724.5, ut1: 2448724.5 - 59 / 86400 });
  const [moon, sun] = [newPlaceNumbers(), newPlaceNumbers()];
  placeKernel('Moon', at.tt, at.ut1, moon);
  placeKernel('Sun', at.tt, at.ut1, sun);
  // With the pole for the zenith, the upright of the observer is north, and right of it is west.
  const phase = benchPhase(90, 0, moon, sun, moon.decDeg);
  expect(litFraction(phase)).toBeCloseTo(0.6786, 3);
  expect((360 - phase.brightLimbDeg) % 360).toBeCloseTo(285.0, 0);
});

test('what is drawn of the Moon is as much as the library says is lit', () => {
  for (let day = 1; day < 29; day += 3) {
    const data = benchData({
      body: 'Moon',
      time: Instant.fromEpochMs(Date.UTC(2027, 4, day, 12)),
      position: ASHORE,
    });
    const edge = litEdge(new BenchSky(data).bodyAt(data.fromMs));
    const area = Math.abs(
      edge.reduce((sum, [x, y], i) => {
        const [nx, ny] = edge[(i + 1) % edge.length] as readonly [number, number];
        return sum + (x * ny - nx * y) / 2;
      }, 0),
    );
    const lit = appearance('Moon', Instant.fromEpochMs(data.fromMs).tt).phase as number;
    // A rim of 40 straight pieces encloses 0.4 % less than the circle.
    expect(Math.abs(area / Math.PI - lit), `day ${day}`).toBeLessThan(0.006);
  }
});

test('haze takes the edge of the sea away, and puts a false one below the horizon; dusk takes it from 6° to 12°', () => {
  const clear = benchLight(30, 2.6, Infinity);
  const hazy = benchLight(30, 2.6, 9000);
  const thick = benchLight(30, 2.6, 3000);
  expect(clear).toMatchObject({ edge: 1, day: 1, isFalseHorizon: false });
  expect(hazy.edge).toBeLessThan(0.2);
  expect(hazy.isFalseHorizon).toBe(false);
  expect(thick.isFalseHorizon).toBe(true);
  // Dip 2.84′ for 2.6 m; the edge 3 km off stands lower.
  expect(thick.edgeDipArcmin).toBeGreaterThan(3);
  expect(benchLight(-6, 2.6, Infinity).edge).toBeCloseTo(1, 6);
  expect(benchLight(-9, 2.6, Infinity).edge).toBeLessThan(0.6);
  expect(benchLight(-12, 2.6, Infinity).edge).toBeLessThan(0.1);
  expect(faintestMagnitude(10)).toBeLessThan(-3.5);
  expect(faintestMagnitude(-6)).toBeGreaterThan(2);
});

test('a mark says what its excess is made of: swing, touch, and lag where the drum was left alone', () => {
  const data = benchData({ body: 'Sun', time: '2027-05-11 14:30:00 UTC', position: ASHORE });
  const sky = new BenchSky(data);
  const at = data.fromMs + 600_000;
  const touch = sky.readingAt(at, -1, 0);
  // The Sun falls: what touched 2 s ago is too great now.
  const late = markAt(data, sky, at + 2000, {
    readingDeg: touch,
    tiltDeg: 0,
    isInverted: false,
    movedMs: at - 20_000,
  });
  expect(late.lagS).toBeCloseTo(2, 2);
  expect(late.contactArcmin).toBeGreaterThan(0.2);
  expect(late.tiltArcmin).toBeCloseTo(0, 9);
  const turned = { readingDeg: touch, tiltDeg: 0, isInverted: false, movedMs: at + 1500 };
  expect(markAt(data, sky, at + 2000, turned).lagS).toBeNull();
  const rocked = markAt(data, sky, at, { ...turned, tiltDeg: 4, movedMs: at - 20_000 });
  expect(rocked.tiltArcmin).toBeGreaterThan(3);
  expect(rocked.contactArcmin).toBeCloseTo(-rocked.tiltArcmin, 6);
  const marks = [1.9, 2, 2.1, 2.2].map((s) =>
    markAt(data, sky, at + s * 1000, { ...turned, movedMs: at - 20_000 }),
  );
  const words = benchSentences(data, marks).join('\n');
  expect(words).toMatch(/4 marks waited for the touch, and were pressed 2\.[01] s .* after it/);
  expect(words).toMatch(/limb and horizon overlapped/);
  expect(words).toMatch(/well rocked/);
  expect(benchCsv(data, marks).split('\n').filter(Boolean)).toHaveLength(6);
});

test('the Sun in the field by a way without its dark shade is a danger, each way for itself', () => {
  const [here, away] = [
    { xArcmin: 10, yArcmin: -20 },
    { xArcmin: 0, yArcmin: 400 },
  ];
  expect(dangerOf(here, away, { index: 'dark', horizon: 'none' })).toBeNull();
  expect(dangerOf(here, away, { index: 'light', horizon: 'dark' })).toContain('index mirror');
  expect(dangerOf(away, here, { index: 'dark', horizon: 'light' })).toContain('horizon glass');
  expect(dangerOf(here, here, { index: 'dark', horizon: 'dark' })).toBeNull();
});

test('data of the bench keep to what can be drawn, and older data are understood', () => {
  const data = benchData({ body: 'Moon' as Body, time: NIGHTFALL, position: ASHORE });
  expect(['lower', 'upper']).toContain(data.limb);
  const { horizon, ...older } = data;
  expect(checkBenchData(older).horizon).toBe(horizon);
  expect(() => checkBenchData({ ...data, limb: 'centre' })).toThrow(/limb/);
  expect(() => checkBenchData({ ...data, visibilityM: -3 })).toThrow(/visibilityM/);
});
