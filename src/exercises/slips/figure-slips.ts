import { Angle, Length } from '../../core/units/index.js';
import {
  quantities,
  type FigureValue,
  type LineSlip,
  type QuantityName,
} from '../question/index.js';

/** Quantities whose sign is written as a name, and how that slip is called. */
const NAMED: Partial<Record<QuantityName, { name: string; sentence: string }>> = {
  latitude: {
    name: 'north for south',
    sentence: 'The figures are right but the name is the other one: north and south are exchanged.',
  },
  declination: {
    name: 'north for south',
    sentence: 'The figures are right but the name is the other one: north and south are exchanged.',
  },
  longitude: {
    name: 'east for west',
    sentence: 'The figures are right but the name is the other one: east and west are exchanged.',
  },
  intercept: {
    name: 'toward for away',
    sentence:
      'The size is right but not the direction: it is toward the body when the observed altitude is the greater.',
  },
  indexError: {
    name: 'index sign',
    sentence:
      'The size is right but not the side: on the arc the sextant reads too much, off the arc too little.',
  },
  correction: {
    name: 'sign',
    sentence:
      'The size is right but the sign is the other one: ask whether the figure must grow or shrink.',
  },
};

/** Figures of a few minutes, in which degrees and tens of minutes do not occur. */
const SMALL: ReadonlySet<QuantityName> = new Set(['correction', 'indexError', 'arc']);

/**
 * Slips that leave their mark on any figure in degrees and minutes, whatever the rule behind it: the sign or name,
 * degrees and minutes of sixty taken as a hundred, a whole degree, ten or thirty minutes, a drum turn, minutes left out,
 * the complement, another unit, two digits exchanged.
 * @param expected the figure that is right (or right after the student's own figures above)
 */
export function figureSlips(quantity: QuantityName, expected: FigureValue): LineSlip[] {
  const { unit } = quantities[quantity];
  const slips: LineSlip[] = [];
  const named = NAMED[quantity];
  if (named && expected instanceof Angle) slips.push({ ...named, value: expected.negated() });
  if (named && expected instanceof Length) slips.push({ ...named, value: expected.times(-1) });
  if (unit === '′' && expected instanceof Angle && !SMALL.has(quantity))
    slips.push(
      ...sexagesimalSlips(expected),
      ...roundSlips(expected),
      {
        name: 'minutes left out',
        value: Angle.degrees(Math.trunc(expected.degrees)),
        sentence: 'Only whole degrees are written: the minutes are missing.',
      },
      ...turned(quantity, expected),
    );
  if (quantity === 'bearing' && expected instanceof Angle) slips.push(...bearingSlips(expected));
  if (SMALL.has(quantity) && expected instanceof Angle) slips.push(...unitSlips(expected));
  return [...slips, ...digitSlips(quantity, expected)];
}

/** Corrections are minutes of arc. */
function unitSlips(expected: Angle): LineSlip[] {
  const name = 'unit';
  return [
    {
      name,
      value: expected.times(60),
      sentence:
        'Degrees were written where minutes of arc are meant: look at the sign behind the figure.',
    },
    {
      name,
      value: expected.times(1 / 60),
      sentence:
        'Seconds were written where minutes of arc are meant: look at the sign behind the figure.',
    },
  ];
}

/** Two digits side by side that have changed places, of degrees or minutes, as the figure is written. */
function digitSlips(quantity: QuantityName, expected: FigureValue): LineSlip[] {
  if (!(expected instanceof Angle || expected instanceof Length)) return [];
  const { print, read } = quantities[quantity];
  const text = print(expected);
  return [...text.matchAll(/\d(?=\d)/g)].flatMap(({ 0: digit, index }) => {
    const next = text.charAt(index + 1);
    if (next === digit) return [];
    try {
      const value = read(text.slice(0, index) + next + digit + text.slice(index + 2), {});
      return [{ name: 'digits exchanged', value, sentence: 'Two digits have changed places.' }];
    } catch {
      // 72 minutes are no figure.
      return [];
    }
  });
}

const SIXTY = 'sixty and a hundred';

/** Minutes are sixtieths: three ways in which hundredths get among them. */
function sexagesimalSlips(expected: Angle): LineSlip[] {
  const size = Math.abs(expected.degrees);
  const sign = expected.degrees < 0 ? -1 : 1;
  const whole = Math.floor(size);
  const part = size - whole;
  const at = (degrees: number) => Angle.degrees(sign * degrees);
  const carried = 40 / 60;
  return [
    {
      name: SIXTY,
      value: at(whole + (part * 100) / 60),
      sentence:
        'Decimals of a degree were written as minutes: a tenth of a degree is six minutes, not ten.',
    },
    {
      name: SIXTY,
      value: at(whole + (part * 60) / 100),
      sentence:
        'Minutes were taken as hundredths of a degree: divide minutes by sixty to make decimals of a degree.',
    },
    ...[carried, -carried].map((by) => ({
      name: SIXTY,
      value: expected.plus(Angle.degrees(by)),
      sentence: 'A degree was carried or borrowed as a hundred minutes: it has sixty.',
    })),
  ];
}

function roundSlips(expected: Angle): LineSlip[] {
  const shifted = (arcmin: number, name: string, sentence: string) =>
    [arcmin, -arcmin].map((by) => ({
      name,
      value: expected.plus(Angle.arcminutes(by)),
      sentence,
    }));
  return [
    ...shifted(
      60,
      'whole degree',
      'The figure is out by one whole degree: read the degrees again, or look for a carry that was lost.',
    ),
    ...shifted(
      600,
      'ten degrees',
      'The figure is out by ten whole degrees: read the degrees again.',
    ),
    ...shifted(
      10,
      'ten minutes',
      'The figure is out by ten minutes of arc: look at the tens of the minutes.',
    ),
    ...shifted(
      30,
      'thirty minutes',
      'The figure is out by half a degree: look at the minutes again.',
    ),
    ...shifted(
      1,
      'one minute',
      'The figure is out by one minute of arc: look for a carry in the tenths.',
    ),
  ];
}

function turned(quantity: QuantityName, expected: Angle): LineSlip[] {
  if (quantity === 'altitude' || quantity === 'latitude')
    return [
      {
        name: 'complement',
        value: Angle.degrees(90 - Math.abs(expected.degrees)),
        sentence: 'This is the complement: ninety degrees less the figure that is wanted.',
      },
    ];
  if (quantity !== 'hourAngle') return [];
  return [
    {
      name: 'measured the other way',
      value: expected.negated(),
      sentence: 'This hour angle is measured the other way round: it counts westward, to 360°.',
    },
  ];
}

function bearingSlips(expected: Angle): LineSlip[] {
  return [
    {
      name: 'reciprocal',
      value: expected.plus(Angle.degrees(180)),
      sentence: 'This is the opposite direction: the true bearing differs by half a turn.',
    },
    {
      name: 'quadrant',
      value: Angle.degrees(-expected.degrees),
      sentence:
        'The angle is in the wrong quadrant: east and west are exchanged when it is named from the meridian.',
    },
    {
      name: 'quadrant',
      value: Angle.degrees(180 - expected.degrees),
      sentence:
        'The angle is in the wrong quadrant: north and south are exchanged when it is named from the meridian.',
    },
  ];
}
