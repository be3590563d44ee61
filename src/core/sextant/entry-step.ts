import type { Angle } from '../units/angle.js';
import type { Step } from '../working/working.js';
import { errorCause, errorDefaults } from './error-budget.js';
import type { Sight } from './sight.js';
import { strayReading } from './run-of-readings.js';
import { stepInput } from './step-parts.js';

const EYES =
  'Never look at the Sun through the telescope without the right shades: put them in before the Sun.';
const NIGHT =
  'Take stars and planets while the horizon is sharp: by night the line under a bright Moon can be a false horizon.';

/** What is usually warned of before such a sight. */
function cautionFor({ body, horizon }: Sight): string | undefined {
  if (body === 'Sun') return EYES;
  const sea = horizon.kind === 'natural' || horizon.kind === 'short';
  return sea && body !== 'Moon' ? NIGHT : undefined;
}

/** The reading a sight starts from: the mean where there are several. @internal */
export function entryStep(sight: Sight): Omit<Step<Angle>, 'result'> {
  const n = sight.readings.length;
  const mean = 1 / Math.sqrt(n);
  const caution = cautionFor(sight);
  const texts = sight.readings.map((r) => r.angle.text ?? r.angle.toString());
  return {
    rule: 'reading',
    title: n === 1 ? 'Sextant altitude' : `Sextant altitude, mean of ${n}`,
    kind: 'entry',
    formula:
      n === 1
        ? { latex: 'h_s', plain: 'hs' }
        : { latex: '\\bar h_s = \\tfrac{1}{n}\\sum h_s', plain: 'mean of hs' },
    figures: n === 1 ? `as read: ${texts[0] ?? ''}` : `(${texts.join(' + ')})/${n}`,
    inputs: sight.readings.map((r, i) =>
      stepInput(
        n === 1 ? 'reading' : `reading ${i + 1}`,
        'hs',
        r.angle,
        r.instant ? `${texts[i]} at ${r.instant}` : (texts[i] ?? ''),
        'reading',
      ),
    ),
    errors: [
      ...errorCause(sight, 'observer', errorDefaults.observer[sight.horizon.kind], undefined, mean),
      ...errorCause(sight, 'reading', errorDefaults.reading, undefined, mean),
      ...(sight.instrumentTable
        ? []
        : errorCause(
            sight,
            'instrument',
            errorDefaults.instrument.uncertified,
            `instrument:${sight.instrument ?? 'sextant'}`,
          )),
    ],
    source: n === 1 ? 'the observer' : 'the observer; mean of readings and of times',
    ...(caution ? { caution } : {}),
  };
}

/** A flag for a reading that does not go with the others. @internal */
export function strayFlags(sight: Sight): string[] {
  const sigma =
    sight.errorBudget.observer?.arcminutes ?? errorDefaults.observer[sight.horizon.kind];
  const stray = strayReading(sight.readings, Math.max(sigma, errorDefaults.reading));
  if (!stray) return [];
  const { number, offArcmin } = stray;
  // Of three readings any one may be the bad one: what lies off a line is their second difference.
  if (sight.readings.length === 3)
    return ['The three readings do not lie on one line in time: look for a slip before averaging.'];
  const side = offArcmin > 0 ? 'above' : 'below';
  return [
    `Reading ${number} lies ${Math.abs(offArcmin).toFixed(1)}′ ${side} the line through the others: look for a slip before averaging.`,
  ];
}
