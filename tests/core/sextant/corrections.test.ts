import { describe, expect, test } from 'vitest';
import {
  angle,
  type Angle,
  augmentation,
  dip,
  earthFigure,
  indexCorrection,
  instrumentCorrection,
  observedAltitude,
  observedAltitudeKernel,
  altitudeInputOf,
  parallax,
  phaseCorrection,
  refraction,
  semidiameter,
  sextantCauses,
  sight,
  writtenColumn,
  type Sight,
  type Working,
} from 'cocked-hat';
import { of, sun, without } from './examples.js';

const rules = (w: Working<Angle>) => w.steps.map((s) => s.rule);
const arcmin = (w: Working<Angle>) => w.value.arcminutes;

describe('a Sun sight to the sea horizon', () => {
  const w = observedAltitude(sun());
  test('goes through its corrections in order', () => {
    expect(rules(w)).toEqual([
      'reading',
      'index',
      'dip',
      'apparent',
      'refraction',
      'semidiameter',
      'parallax',
      'observed',
    ]);
  });
  test('the value is the reading and all corrections, unrounded', () => {
    const sum = w.steps.reduce((s, step) => s + (step.correction?.degrees ?? 0), 41.31);
    expect(w.value.degrees).toBeCloseTo(sum, 12);
  });
  test('each correction alone is the one in the whole working', () => {
    const alone: [string, (s: Sight) => Working<Angle>][] = [
      ['index', indexCorrection],
      ['dip', dip],
      ['refraction', refraction],
      ['semidiameter', semidiameter],
      ['parallax', parallax],
    ];
    for (const [rule, correct] of alone) {
      const step = w.step(rule);
      expect(correct(sun()).value.degrees).toBe(step.correction?.degrees);
      expect(correct(sun()).steps[0]?.figures).toBe(step.figures);
    }
  });
  test('every step names a source, a formula in two forms and its figures', () => {
    for (const step of w.steps) {
      expect(step.source).not.toBe('');
      expect(step.formula.latex).not.toBe('');
      expect(step.formula.plain).not.toBe('');
    }
    expect(w.step('dip').figures).toBe('−1.758′ × √2.6 = −2.8′');
    expect(w.step('index').figures).toBe('1.4′ off the arc, off: add = +1.4′');
  });
  test('the pencil column adds up in tenths', () => {
    const column = writtenColumn(w);
    expect(column.value.toString()).toBe('41°32.0′');
    expect(column.toString()).toBe(
      [
        'hs    41°18.6′',
        'IC       +1.4′',
        'dip      −2.8′',
        'ha    41°17.2′',
        'refr     −1.1′',
        'SD      +15.8′',
        'p        +0.1′',
        'Ho    41°32.0′',
      ].join('\n'),
    );
  });
  test('the kernel and the working are one truth', () => {
    expect(observedAltitudeKernel(altitudeInputOf(sun()))).toBe(w.value.degrees);
  });
  test('warns of the Sun in the telescope and of dip', () => {
    expect(w.cautions.join()).toMatch(/shades/);
    expect(w.cautions.join()).toMatch(/Dip is the least certain/);
  });
  test('warns near the zenith and of the night horizon', () => {
    expect(observedAltitude(sun({ reading: '85°00.0′' })).cautions.join()).toMatch(/zenith/);
    expect(observedAltitude(of('Vega')).cautions.join()).toMatch(/false horizon/);
  });
  test('irradiation is named as not applied', () => {
    const input = w.step('semidiameter').inputs.find((i) => i.name === 'irradiation');
    expect(input?.text).toBe('not applied');
  });
});

describe('other horizons', () => {
  test('an artificial horizon halves after the index correction and has no dip', () => {
    const w = observedAltitude(sun({ horizon: 'artificial', reading: '82°37.2′' }));
    expect(rules(w)).toContain('halving');
    expect(rules(w)).not.toContain('dip');
    const half = w.step('halving').result as Angle;
    expect(half.arcminutes).toBeCloseTo((82 * 60 + 37.2 + 1.4) / 2, 9);
    expect(dip(sun({ horizon: 'artificial', reading: '82°37.2′' })).value.degrees).toBe(0);
  });
  test('with an artificial horizon errors of the arc count half', () => {
    const w = observedAltitude(sun({ horizon: 'artificial', reading: '82°37.2′' }));
    const index = w.uncertainty.causes.find((c) => c.cause === 'index');
    expect(index?.sigmaArcmin).toBeCloseTo(0.1, 12);
  });
  test('a bubble has no dip and a coarser observer', () => {
    const w = observedAltitude(sun({ horizon: 'bubble' }));
    expect(rules(w)).not.toContain('dip');
    expect(w.uncertainty.sigma.arcminutes).toBeGreaterThan(1.9);
  });
  test('a near beach has more dip than the sea, worked by its own formula', () => {
    const near = dip(sun({ eyeHeight: '10 ft', waterlineDistance: '0.5 nmi' }));
    // 60 arctan(10/(6076.1 × 0.5) + 0.5/8268)
    expect(arcmin(near)).toBeCloseTo(
      -(Math.atan(10 / 3038.05 + 0.5 / 8268) * 180 * 60) / Math.PI,
      9,
    );
    expect(near.uncertainty.sigma.arcminutes).toBeGreaterThan(
      dip(sun()).uncertainty.sigma.arcminutes,
    );
  });
  test('a back sight takes the supplement and turns the shared errors round', () => {
    const front = observedAltitude(sun({ reading: '50°00.0′', indexError: 'none' }));
    const back = observedAltitude(sun({ reading: '130°00.0′', indexError: 'none' }));
    // Dip lowers the front altitude and raises the back one.
    const twoDips = back.value.minus(front.value).arcminutes;
    expect(twoDips).toBeCloseTo(2 * 1.758 * Math.sqrt(2.6), 2);
    const sign = (w: Working<Angle>) =>
      Math.sign(w.uncertainty.causes.find((c) => c.cause === 'dip')?.sigmaArcmin ?? NaN);
    expect([sign(front), sign(back)]).toEqual([1, -1]);
    expect(
      back.uncertainty.causes.find((c) => c.cause === 'observer')?.sigmaArcmin,
    ).toBeGreaterThan(0);
  });
});

describe('the Moon', () => {
  const moon = of('Moon', { time: '2027-05-11 14:42:17 UTC' });
  test('has augmentation, large parallax and the figure of the Earth', () => {
    const w = observedAltitude(moon);
    expect(rules(w).slice(-5)).toEqual([
      'semidiameter',
      'augmentation',
      'parallax',
      'earth-figure',
      'observed',
    ]);
    expect(arcmin(parallax(moon))).toBeGreaterThan(40);
    expect(arcmin(augmentation(moon))).toBeGreaterThan(0.1);
  });
  test('the dark limb is flagged, the lit one is not', () => {
    // First quarter was on 2027-05-13: in the afternoon of 11 May the Sun is west of a waxing Moon and above it.
    const flags = (limb: 'lower' | 'upper') =>
      observedAltitude(of('Moon', { time: '2027-05-11 14:42:17 UTC', limb })).flags.join();
    expect([flags('lower'), flags('upper')].filter((f) => /dark one/.test(f))).toHaveLength(1);
    expect(flags('lower')).toMatch(/upper limb is lit/);
  });
  test('an upper limb turns semi-diameter and augmentation round', () => {
    const upper = of('Moon', { time: '2027-05-11 14:42:17 UTC', limb: 'upper' });
    expect(arcmin(semidiameter(upper))).toBeCloseTo(-arcmin(semidiameter(moon)), 12);
    expect(arcmin(augmentation(upper))).toBeLessThan(0);
  });
  test('without a DR the figure of the Earth is left out, flagged and allowed for', () => {
    const w = observedAltitude(sight(without(moon.fields, 'dr')));
    expect(rules(w)).not.toContain('earth-figure');
    expect(w.flags.join()).toMatch(/figure of the Earth/);
    expect(w.uncertainty.causes.map((c) => c.cause)).toContain('figure of the Earth');
  });
  test('the figure of the Earth is the almanac’s OB to 0.005′', () => {
    const [lat, z, h] = [-19.5167, altitudeInputOf(moon).azimuthDeg, 41.54].map(
      (d) => (d * Math.PI) / 180,
    ) as [number, number, number];
    const ob =
      60 *
      0.0032 *
      (Math.sin(2 * lat) * Math.cos(z) * Math.sin(h) - Math.sin(lat) ** 2 * Math.cos(h));
    expect(arcmin(earthFigure(moon))).toBeCloseTo(ob, 2);
  });
});

describe('planets and stars', () => {
  test('a star has refraction only', () => {
    expect(rules(observedAltitude(of('Aldebaran')))).toEqual([
      'reading',
      'index',
      'dip',
      'apparent',
      'refraction',
      'observed',
    ]);
    expect(arcmin(parallax(of('Aldebaran')))).toBe(0);
    expect(arcmin(semidiameter(of('Aldebaran')))).toBe(0);
    expect(parallax(of('Aldebaran')).steps[0]?.figures).toMatch(/too far away/);
  });
  test('Venus as a crescent has a phase correction away from the Sun', () => {
    // 2028-05-10: evening star before the inferior conjunction of 2028-06-01, a thin large crescent.
    const venus = of('Venus', { time: '2028-05-10 18:00:00 UTC', reading: '20°00.0′' });
    const w = phaseCorrection(venus);
    // The Sun has set below Venus, so the light lies low and the centre of the disc higher.
    expect(arcmin(w)).toBeGreaterThan(0.2);
    expect(arcmin(w)).toBeLessThan(0.5);
    expect(rules(observedAltitude(venus))).toContain('phase');
  });
  test('without a DR the phase is not applied and counts as an error', () => {
    const venus = of('Venus', { time: '2028-05-10 18:00:00 UTC', reading: '20°00.0′' });
    const s = sight(without(venus.fields, 'dr'));
    expect(arcmin(phaseCorrection(s))).toBe(0);
    expect(phaseCorrection(s).uncertainty.sigma.arcminutes).toBeGreaterThan(0.2);
  });
});

describe('the certificate', () => {
  const table = [
    ['0°', '0.0′'],
    ['30°', '+0.4′'],
    ['60°', '−0.2′'],
  ] as const;
  test('is taken in proportion between its lines', () => {
    expect(
      arcmin(instrumentCorrection(sun({ reading: '45°00.0′', instrumentTable: table }))),
    ).toBeCloseTo(0.1, 9);
    expect(
      arcmin(instrumentCorrection(sun({ reading: '30°00.0′', instrumentTable: table }))),
    ).toBeCloseTo(0.4, 9);
  });
  test('holds its last line beyond it, and says so', () => {
    const w = observedAltitude(sun({ reading: '80°00.0′', instrumentTable: table }));
    expect(w.step('instrument').correction?.arcminutes).toBeCloseTo(-0.2, 9);
    expect(w.flags.join()).toMatch(/outside the certificate/);
  });
  test('refuses two corrections for one reading', () => {
    expect(() =>
      sun({
        instrumentTable: [
          ['10°', '0′'],
          ['10°', '1′'],
        ],
      }),
    ).toThrow(/two corrections/);
  });
});

describe('the error budget', () => {
  test('one reading to a sea horizon comes to 0.8′, near the scatter reported at sea', () => {
    const sigma = observedAltitude(sun()).uncertainty.sigma.arcminutes;
    expect(sigma).toBeGreaterThan(0.7);
    expect(sigma).toBeLessThan(1);
  });
  test('names only known causes and shares index, instrument and dip', () => {
    const { causes } = observedAltitude(sun()).uncertainty;
    for (const c of causes) expect(sextantCauses).toContain(c.cause);
    const shared = causes.filter((c) => c.sharedKey).map((c) => [c.cause, c.sharedKey]);
    expect(shared).toEqual([
      ['instrument', 'instrument:sextant'],
      ['index', 'index:sextant:2027-05-11'],
      ['dip', 'dip:2027-05-11'],
    ]);
  });
  test('n readings make the observer’s part √n smaller and leave the shared parts', () => {
    const four = observedAltitude(
      sun({ reading: ['41°18.6′', '41°18.6′', '41°18.6′', '41°18.6′'] }),
    );
    const cause = (name: string) =>
      four.uncertainty.causes.find((c) => c.cause === name)?.sigmaArcmin;
    expect(cause('observer')).toBeCloseTo(0.3, 12);
    expect(cause('index')).toBeCloseTo(0.2, 12);
  });
  test('a stated total takes the place of the budget', () => {
    const w = observedAltitude(sun({ sigma: '1.2′' }));
    expect(w.uncertainty.sigma.arcminutes).toBeCloseTo(1.2, 12);
    expect(w.uncertainty.causes).toHaveLength(1);
  });
  test('a stated cause takes the place of its default', () => {
    const w = observedAltitude(sun({ errorBudget: { dip: angle('1.0′') } }));
    expect(w.uncertainty.causes.find((c) => c.cause === 'dip')?.sigmaArcmin).toBeCloseTo(1, 12);
  });
  test('refraction grows less certain towards the horizon and without a thermometer', () => {
    const sigma = (reading: string, temperature?: '21 °C') =>
      refraction(sun({ reading, ...(temperature ? { temperature } : {}) })).uncertainty.sigma
        .arcminutes;
    expect(sigma('1°30.0′')).toBeGreaterThan(2 * sigma('4°00.0′'));
    expect(sigma('12°00.0′')).toBeGreaterThan(sigma('12°00.0′', '21 °C'));
  });
});
