import type { Random } from '../../core/fix/index.js';
import {
  altitudeInputOf,
  formatIndexError,
  sextantReadingFor,
  sight,
  type Sight,
  type SightFields,
} from '../../core/sextant/index.js';
import {
  Angle,
  formatAngle,
  type Instant,
  type LengthText,
  type Position,
} from '../../core/units/index.js';
import { seenFrom } from './sky.js';

/** The sextant and the air of one exercise, as texts that go into a sight. */
export type Gear = Pick<SightFields, 'eyeHeight' | 'indexError' | 'temperature' | 'pressure'>;

const tenth = (value: number) => Math.round(value * 10) / 10;

/** An index error of 0.8′ to 2.9′ either way and an eye 2.0 to 4.5 m up: enough for their slips to show. */
export function drawGear(random: Random): Gear {
  const size = tenth(0.8 + 2.1 * random.uniform());
  const error = Angle.arcminutes(random.uniform() < 0.5 ? size : -size);
  const height = tenth(2 + 2.5 * random.uniform());
  const temperature = 14 + random.below(14);
  const pressure = 1004 + random.below(20);
  return {
    eyeHeight: `${height.toFixed(1)} m` as LengthText,
    indexError: formatIndexError(error),
    temperature: `${temperature} °C`,
    pressure: `${pressure} hPa`,
  };
}

/**
 * The sight as it would be taken from `truth`: the reading, to 0.1′, is what the sextant shows there.
 * @param scatterArcmin added to the reading, for a body that was not quite held
 */
export function takeSight(
  fields: Omit<SightFields, 'reading' | 'time'>,
  instant: Instant,
  truth: Position,
  scatterArcmin = 0,
): Sight {
  const time = instant.toString();
  const { altDeg } = seenFrom(fields.body, instant, truth);
  const trial = sight({ ...fields, reading: Angle.degrees(Math.max(altDeg, 1)), time });
  const readingDeg = sextantReadingFor(altDeg, altitudeInputOf(trial)) + scatterArcmin / 60;
  const text = formatAngle(Math.round(readingDeg * 600) / 600);
  return sight({ ...fields, reading: text, time });
}
