import fc from 'fast-check';
import { expect, test } from 'vitest';
import { graticuleStep } from '../../src/views/chart/graticule.js';
import { panned, placeAt, project, windowAround, zoomed } from '../../src/views/chart/window.js';

const frame = { left: 80, top: 10, width: 640, height: 500 };

test('a place projected and read back is the same place, on either side of 180° too', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -79, max: 79, noNaN: true }),
      fc.double({ min: -180, max: 180, noNaN: true }),
      fc.double({ min: -0.2, max: 0.2, noNaN: true }),
      (latDeg, lonDeg, d) => {
        const w = windowAround(frame, [{ latDeg, lonDeg }], 1);
        const there = { latDeg: latDeg + d / 2, lonDeg: lonDeg + d };
        const back = placeAt(w, project(w, there));
        expect(back.latDeg).toBeCloseTo(there.latDeg, 8);
        expect(Math.cos(((back.lonDeg - there.lonDeg) * Math.PI) / 180)).toBeCloseTo(1, 12);
      },
    ),
  );
});

test('the window holds every place it was made for', () => {
  const places = [
    { latDeg: -18.6, lonDeg: 179.9 },
    { latDeg: -18.9, lonDeg: -179.8 },
  ];
  const w = windowAround(frame, places);
  for (const place of places) {
    const [x, y] = project(w, place);
    expect(x).toBeGreaterThan(frame.left);
    expect(x).toBeLessThan(frame.left + frame.width);
    expect(y).toBeGreaterThan(frame.top);
    expect(y).toBeLessThan(frame.top + frame.height);
  }
});

test('changing the scale about a point leaves that point where it is; moving the chart moves it by as much', () => {
  const w = windowAround(frame, [
    { latDeg: -18.7, lonDeg: -0.5 },
    { latDeg: -18.5, lonDeg: -0.2 },
  ]);
  const point = [300, 120] as const;
  const place = placeAt(w, point);
  const [x, y] = project(zoomed(w, 2.5, point), place);
  expect(x).toBeCloseTo(point[0], 6);
  expect(y).toBeCloseTo(point[1], 6);
  const [mx, my] = project(panned(w, 40, -25), place);
  expect(mx).toBeCloseTo(340, 6);
  expect(my).toBeCloseTo(95, 6);
});

test('graticule lines stand apart at every scale', () => {
  for (let perMinute = 0.03; perMinute < 4000; perMinute *= 1.7)
    expect(graticuleStep(perMinute, 64) * perMinute).toBeGreaterThanOrEqual(64);
});
