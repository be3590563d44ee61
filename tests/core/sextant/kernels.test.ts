import { Body, Illumination, MakeTime } from 'astronomy-engine';
import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import {
  altitudeStagesKernel,
  dipKernel,
  dipShortKernel,
  earthFigureKernel,
  horizonDistanceKernel,
  lightCentreKernel,
  observedAltitudeKernel,
  parallaxSphereKernel,
  refractionFormulaKernel,
  refractionIntegralKernel,
  refractionSigmaKernel,
  sextantReadingFor,
  stagesOf,
  type AltitudeInput,
} from 'cocked-hat';
import { of, plainInput } from './examples.js';

const input = (changes: Partial<AltitudeInput>): AltitudeInput => ({ ...plainInput, ...changes });
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const anyInput = fc.record({
  indexErrorArcmin: number(-5, 5),
  instrumentArcmin: number(-1, 1),
  horizon: fc.constantFrom('natural', 'artificial', 'bubble' as const),
  eyeHeightM: number(0, 60),
  temperatureC: number(-20, 40),
  pressureHpa: number(950, 1050),
  refractionModel: fc.constantFrom('formula', 'integral', 'formula above 10°' as const),
  limb: fc.constantFrom(-1, 0, 1 as const),
  moon: fc.boolean(),
  latDeg: number(-89, 89),
  azimuthDeg: number(0, 360),
}) as fc.Arbitrary<Partial<AltitudeInput>>;

const bodyOf = (moon: boolean | undefined): Partial<AltitudeInput> =>
  moon ? { sdArcmin: 15.6, hpArcmin: 57.3 } : { sdArcmin: 16, hpArcmin: 0.15 };

describe('the kernels', () => {
  test('a reading made for an altitude gives that altitude back', () => {
    fc.assert(
      fc.property(anyInput, number(0.6, 74), (changes, altitude) => {
        const made = input({ ...changes, ...bodyOf(changes.moon) });
        const readingDeg = sextantReadingFor(altitude, made);
        expect(observedAltitudeKernel({ ...made, readingDeg })).toBeCloseTo(altitude, 8);
      }),
      { numRuns: 300 },
    );
  });
  test('so does a back sight', () => {
    fc.assert(
      fc.property(number(35, 89), number(-5, 5), (altitude, indexErrorArcmin) => {
        const made = input({ indexErrorArcmin });
        const readingDeg = sextantReadingFor(altitude, made, true);
        expect(readingDeg).toBeGreaterThan(90);
        expect(observedAltitudeKernel({ ...made, readingDeg })).toBeCloseTo(altitude, 8);
      }),
    );
  });
  test('a higher reading gives a higher altitude, away from the change of model at 10°', () => {
    fc.assert(
      fc.property(anyInput, number(1, 70), number(0.01, 5), (changes, low, more) => {
        const model = changes.refractionModel === 'formula' ? 'formula' : 'integral';
        const made = input({ ...changes, ...bodyOf(changes.moon), refractionModel: model });
        const at = (readingDeg: number) => observedAltitudeKernel({ ...made, readingDeg });
        expect(at(low + more)).toBeGreaterThan(at(low));
      }),
    );
  });
  test('at the change of model the refraction steps by less than 0.11′', () => {
    for (const t of [-20, 10, 40])
      expect(
        Math.abs(refractionFormulaKernel(10, t, 1010) - refractionIntegralKernel(10, t, 1010)),
      ).toBeLessThan(0.11);
  });
  test('out of range is NaN, never a plausible figure', () => {
    expect(dipKernel(-1)).toBeNaN();
    expect(refractionFormulaKernel(-1.01, 10, 1010)).toBeNaN();
    expect(refractionIntegralKernel(90.01, 10, 1010)).toBeNaN();
    expect(observedAltitudeKernel(input({ readingDeg: -2 }))).toBeNaN();
    expect(observedAltitudeKernel(input({ readingDeg: NaN }))).toBeNaN();
    expect(sextantReadingFor(NaN, plainInput)).toBeNaN();
    expect(sextantReadingFor(-20, plainInput)).toBeNaN();
  });
  test('dip of a waterline at the horizon is the dip of the sea', () => {
    for (const h of [1, 2.6, 10, 30])
      expect(dipShortKernel(h, horizonDistanceKernel(h))).toBeCloseTo(dipKernel(h), 1);
  });
  test('refraction vanishes in the zenith', () => {
    expect(refractionIntegralKernel(90, 10, 1010)).toBe(0);
    expect(Math.abs(refractionFormulaKernel(90, 10, 1010))).toBeLessThan(0.0014);
  });
  test('the allowance near the horizon covers lapse rates from 3 to 9.8 K/km three times over', () => {
    for (const h of [0, 0.5, 1, 2, 3]) {
      const [weak, steep] = [0.003, 0.0098].map((l) =>
        refractionIntegralKernel(h, 10, 1010, l),
      ) as [number, number];
      const half = Math.abs(weak - steep) / 2;
      const sigma = refractionSigmaKernel(h, 0, true, true);
      expect(sigma / half).toBeGreaterThan(2.5);
      expect(sigma / half).toBeLessThan(3.2);
    }
  });
  test('on a sphere the figure of the Earth would be nought: it is, at the equator for a body east or west', () => {
    expect(earthFigureKernel(30, 57, 0, 90)).toBeCloseTo(0, 9);
    expect(earthFigureKernel(30, 0.15, 45, 0)).toBeLessThan(0.001);
  });
  test('parallax in the horizon is the horizontal parallax', () => {
    expect(parallaxSphereKernel(0, 57.3)).toBeCloseTo(57.3, 10);
    expect(parallaxSphereKernel(90, 57.3)).toBeCloseTo(0, 10);
  });
  test('a batch writes into one object', () => {
    const out = altitudeStagesKernel(plainInput);
    expect(altitudeStagesKernel(input({ readingDeg: 50 }), out)).toBe(out);
  });
});

describe('the phase of a planet', () => {
  test('the centre of light is that of a diffusely reflecting sphere, integrated numerically', () => {
    for (const i of [10, 47, 90, 120, 150])
      expect(lightCentreKernel(i)).toBeCloseTo(integrated(i), 3);
    expect(lightCentreKernel(0)).toBeCloseTo(0, 12);
    expect(lightCentreKernel(180)).toBe(1);
  });
  test('the phase angle of Venus and Mars is astronomy-engine’s to 0.05°', () => {
    for (const [body, name] of [
      ['Venus', Body.Venus],
      ['Mars', Body.Mars],
    ] as const)
      for (const day of ['2027-01-10', '2028-05-10', '2029-09-01']) {
        const s = of(body, { time: `${day} 18:00:00 UTC`, reading: '30°' });
        const theirs = Illumination(name, MakeTime(new Date(`${day}T18:00:00Z`))).phase_angle;
        expect(Math.abs((stagesOf(s).phase?.phaseAngleDeg ?? NaN) - theirs)).toBeLessThan(0.05);
      }
  });
});

/** First moment over brightness on a grid of the disc, in semi-diameters. */
function integrated(phaseAngleDeg: number): number {
  const i = (phaseAngleDeg * Math.PI) / 180;
  const n = 400;
  let [light, moment] = [0, 0];
  for (let row = 0; row < n; row++)
    for (let column = 0; column < n; column++) {
      const [x, y] = [-1 + (2 * column + 1) / n, -1 + (2 * row + 1) / n];
      const z2 = 1 - x * x - y * y;
      const lit = z2 > 0 ? x * Math.sin(i) + Math.sqrt(z2) * Math.cos(i) : 0;
      if (lit > 0) [light, moment] = [light + lit, moment + lit * x];
    }
  return moment / light;
}
