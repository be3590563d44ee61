import {
  altitudeInputOf,
  parallaxSphereKernel,
  refractionKernel,
  sightPlace,
  stagesOf,
  type Sight,
} from '../../core/sextant/index.js';
import { meanReadingDeg } from '../../core/sextant/readings.js';
import { Angle } from '../../core/units/index.js';
import type { ExpectedLine, LineSlip } from '../question/index.js';
import type { StandardName } from '../tolerance/index.js';

const arcmin = Angle.arcminutes;

/** What a line needs to be told: which of the givens is its sight. */
export type SightOf<G> = (given: G) => Sight;

/** Index correction, dip and apparent altitude: the part that sextant and horizon bring. */
export function apparentLines<G>(of: SightOf<G>): ExpectedLine<G>[] {
  return [
    {
      id: 'indexCorrection',
      title: 'Index correction',
      quantity: 'correction',
      formula:
        'the index error with the other sign: off the arc is added, on the arc is taken away',
      rule: (g) => arcmin(-(of(g).indexError?.arcminutes ?? 0)),
      slips: (_g, _f, expected) => [indexSign(expected as Angle)],
      hint: 'When it is off, put it on.',
    },
    {
      id: 'dip',
      title: 'Dip',
      quantity: 'correction',
      formula: '1.758′ times the square root of the height of eye in metres, always taken away',
      rule: (g) => arcmin(stagesOf(of(g)).stages.dipArcmin),
      slips: (_g, _f, expected) => [dipAdded(expected as Angle)],
      hint: 'The horizon lies below the level of the eye, so the angle down to it is too large.',
    },
    {
      id: 'apparent',
      title: 'Apparent altitude',
      quantity: 'altitude',
      formula: 'the reading with index correction and dip applied',
      rule: (g, f) => reading(of(g)).plus(f.angle('indexCorrection')).plus(f.angle('dip')),
      terms: [
        { line: 'indexCorrection', sign: 1 },
        { line: 'dip', sign: 1 },
      ],
      hint: 'Write the reading, put both corrections under it with their signs, and add.',
    },
  ];
}

/** Refraction, semi-diameter, parallax and the observed altitude: the part that air and body bring. */
export function bodyLines<G>(of: SightOf<G>, standard: StandardName): ExpectedLine<G>[] {
  return [
    {
      id: 'refraction',
      title: 'Refraction',
      quantity: 'correction',
      formula:
        'from the altitude table with the apparent altitude, corrected for temperature and pressure, always taken away',
      rule: (g, f) => arcmin(-refractionAt(of(g), f.angle('apparent').degrees)),
      slips: (g, f, expected) =>
        refractionSlips(of(g), f.angle('apparent').degrees, expected as Angle),
      hint: 'Air lifts what is seen through it, the more the lower it stands.',
    },
    {
      id: 'semidiameter',
      title: 'Semi-diameter',
      quantity: 'correction',
      formula: 'from the daily page; added for a lower limb, taken away for an upper limb',
      rule: (g) => arcmin(stagesOf(of(g)).stages.sdArcmin),
      slips: (_g, _f, expected) => [limbSign(expected as Angle), wholeDiameter(expected as Angle)],
      hint: 'The centre stands above the lower limb and below the upper one.',
    },
    {
      id: 'parallax',
      title: 'Parallax in altitude',
      quantity: 'correction',
      formula: 'the horizontal parallax times the cosine of the altitude, always added',
      rule: (g, f) =>
        arcmin(
          parallaxSphereKernel(
            f.angle('apparent').degrees,
            sightPlace(of(g)).horizontalParallax.arcminutes,
          ),
        ),
      hint: 'From the centre of the Earth every body stands higher.',
    },
    {
      id: 'observed',
      title: 'Observed altitude',
      quantity: 'altitude',
      formula: 'the apparent altitude with refraction, semi-diameter and parallax applied',
      rule: (_g, f) =>
        ['refraction', 'semidiameter', 'parallax'].reduce(
          (sum, line) => sum.plus(f.angle(line)),
          f.angle('apparent'),
        ),
      terms: ['refraction', 'semidiameter', 'parallax'].map((line) => ({ line, sign: 1 })),
      standard,
      marks: 2,
    },
  ];
}

export const reading = (s: Sight): Angle => Angle.degrees(meanReadingDeg(s.readings));

export function refractionAt(s: Sight, apparentDeg: number): number {
  const { temperatureC, pressureHpa, refractionModel } = altitudeInputOf(s);
  const minutes = refractionKernel(apparentDeg, temperatureC, pressureHpa, refractionModel);
  if (Number.isNaN(minutes)) throw new RangeError(`no refraction at ${apparentDeg}°`);
  return minutes;
}

const indexSign = (expected: Angle): LineSlip => ({
  name: 'sign of the index correction',
  value: expected.negated(),
  sentence:
    'The index correction has the wrong sign: an error off the arc is added, an error on the arc is taken away.',
});

const dipAdded = (expected: Angle): LineSlip => ({
  name: 'sign of the dip',
  value: expected.negated(),
  sentence: 'Dip was given a plus sign: it is always taken away from a sea horizon.',
});

const limbSign = (expected: Angle): LineSlip => ({
  name: 'wrong limb',
  value: expected.negated(),
  sentence:
    'The semi-diameter was applied for the other limb: it is added for the lower limb and taken away for the upper.',
});

const wholeDiameter = (expected: Angle): LineSlip => ({
  name: 'diameter for semi-diameter',
  value: expected.times(2),
  sentence: 'The whole diameter was used: the correction is half of it.',
});

/** A row 10° higher or lower in the table, and the sign. */
function refractionSlips(s: Sight, apparentDeg: number, expected: Angle): LineSlip[] {
  const row = [-10, 10]
    .map((by) => apparentDeg + by)
    .filter((at) => at > 0 && at < 90)
    .map((at) => ({
      name: 'row of the refraction table',
      value: arcmin(-refractionAt(s, at)),
      sentence: 'This is the refraction of another altitude: look at the row of the table again.',
    }));
  return [
    {
      name: 'sign of the refraction',
      value: expected.negated(),
      sentence: 'Refraction was given a plus sign: it lifts the body, so it is always taken away.',
    },
    ...row,
  ];
}
