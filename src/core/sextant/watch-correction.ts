import { EntryError } from '../units/errors.js';
import type { Duration } from '../units/scalar.js';
import { Uncertainty, Working, type Step } from '../working/working.js';
import type { Sight } from './sight.js';
import { stepInput } from './step-parts.js';
import { watchErrorAt } from './watch.js';

/**
 * Correction of the watch at a sight: its error when compared, carried on by its daily rate, with the sign changed.
 * @returns a working whose value is the correction in seconds, to be added to the time read (negative for a fast
 * watch). Its error is one of time: what it does to a position line depends on the body's motion, so it is not among
 * the causes here, which are in minutes of arc.
 * @throws EntryError when the sight has no watch
 */
export function watchCorrection(sight: Sight): Working<Duration> {
  const { watch, instant } = sight;
  if (!watch)
    throw new EntryError(
      "This sight has no watch; give one with watch: { error: '12 s fast', checked: '2027-05-10 08:00:00 UTC' }.",
      sight.toString(),
    );
  const error = watchErrorAt(watch, instant);
  const days = watch.checked ? instant.minus(watch.checked).days : 0;
  const { error: found, dailyRate } = watch;
  const step: Step<Duration> = {
    rule: 'watch',
    title: 'Watch correction',
    kind: 'result',
    formula: {
      latex: '-(E + r\\,t)',
      plain: '−(error + daily rate × days); fast +, gaining +',
    },
    figures: `−(${seconds(found)} + ${seconds(dailyRate)} × ${days.toFixed(2)}) = ${seconds(error.negated())}`,
    inputs: [
      stepInput('error when compared', 'E', found, seconds(found), 'given'),
      stepInput('daily rate', 'r', dailyRate, seconds(dailyRate), 'given'),
      stepInput('days since', 't', days, days.toFixed(2), 'computed'),
      stepInput('one standard deviation', 'σ', watch.sigma, seconds(watch.sigma), 'given'),
    ],
    result: error.negated(),
    errors: [],
    source: 'by definition; one second of time is up to a quarter of a minute of longitude',
    ...(days > 7
      ? { caution: 'The watch was compared more than a week ago: compare it again.' }
      : {}),
  };
  return new Working('Watch correction', [step], [], new Uncertainty([]));
}

const seconds = (d: Duration) =>
  `${d.seconds < 0 ? '−' : ''}${Number(Math.abs(d.seconds).toFixed(1))} s`;
