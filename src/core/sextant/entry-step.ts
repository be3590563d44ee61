import type { Angle } from '../units/angle.js';
import type { Step } from '../working/working.js';
import { errorCause, errorDefaults } from './error-budget.js';
import type { Sight } from './sight.js';
import { stepInput } from './step-parts.js';

const EYES =
  'Never look at the Sun through the telescope without the right shades: put them in before the Sun.';

/** The reading a sight starts from: the mean where there are several. @internal */
export function entryStep(sight: Sight): Omit<Step<Angle>, 'result'> {
  const n = sight.readings.length;
  const mean = 1 / Math.sqrt(n);
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
    ...(sight.body === 'Sun' ? { caution: EYES } : {}),
  };
}
