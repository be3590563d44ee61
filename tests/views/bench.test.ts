import fc from 'fast-check';
import { expect, test } from 'vitest';
import { position } from '../../src/index.js';
import { benchData } from '../../src/views/bench/bench-data.js';
import { BenchSky } from '../../src/views/bench/bench-sky.js';
import { fieldPoint, tiltedAngle } from '../../src/views/bench/optics.js';

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
      fc.constantFrom('Sun', 'Canopus', 'Vega'),
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
        const limb = body === 'Sun' ? -1 : 0;
        const reading = sky.readingAt(at, limb, indexErrorArcmin);
        const pointing = { panDeg: 0, pitchDeg: pitch, tiltDeg: 0 };
        const body_ = fieldPoint(
          { rightDeg: 0, upDeg: seen.lowerDeg },
          pointing,
          reading - indexErrorArcmin / 60,
        );
        const sea = fieldPoint({ rightDeg: 0, upDeg: -seen.dipArcmin / 60 }, pointing, 0);
        const gap = Math.abs((body_?.yArcmin ?? NaN) - (sea?.yArcmin ?? NaN));
        most = Math.max(most, gap);
        expect(gap).toBeLessThan(0.1);
      },
    ),
    { numRuns: 300 },
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
