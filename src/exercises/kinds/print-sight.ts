import type { Sight } from '../../core/sextant/index.js';
import { formatAngle } from '../../core/units/index.js';
import { meanReadingDeg } from '../../core/sextant/readings.js';
import type { GivenFigure } from '../question/index.js';

/** What a student is given of a sight, as it would stand in the sight book. */
export function printedSight(s: Sight): GivenFigure[] {
  const body: GivenFigure[] = [
    ['Body', s.bodyAndLimb],
    ['Time', s.instant.toString()],
    ['Sextant reading', formatAngle(meanReadingDeg(s.readings))],
  ];
  return [...body, ...printedGear(s)];
}

/** Sextant, eye and air. */
export function printedGear(s: Sight): GivenFigure[] {
  const gear: [label: string, value: { toString(): string } | string | undefined][] = [
    ['Index error', s.indexError?.text],
    ['Height of eye', s.eyeHeight],
    ['Air temperature', s.temperature],
    ['Air pressure', s.pressure],
  ];
  return gear.flatMap(([label, value]) =>
    value === undefined ? [] : [[label, value.toString()] as const],
  );
}
