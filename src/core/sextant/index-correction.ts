import { formatCorrection } from '../units/angle-format.js';
import type { Angle } from '../units/angle.js';
import type { Working } from '../working/working.js';
import { errorCause, errorDefaults } from './error-budget.js';
import { formatIndexError } from './index-error-text.js';
import type { Sight } from './sight.js';
import type { AltitudeStages } from './altitude-kernel.js';
import { stagesOf } from './sight-stages.js';
import { correctionStep, oneCorrection, stepInput, type CorrectionStep } from './step-parts.js';

/** @internal */
export function indexStep(
  sight: Sight,
  stages: Pick<AltitudeStages, 'indexArcmin'>,
): CorrectionStep {
  const error = sight.indexError;
  const side = error ? formatIndexError(error) : 'not given';
  const rule = !error || error.degrees === 0 ? '' : error.degrees > 0 ? 'on: subtract' : 'off: add';
  return correctionStep({
    rule: 'index',
    title: 'Index correction',
    latex: 'IC = -IE',
    plain: 'IC = −IE (on the arc, take it off; off the arc, put it on)',
    figures: `${rule ? `${side}, ${rule}` : side} = ${formatCorrection(stages.indexArcmin)}`,
    inputs: [
      stepInput('index error', 'IE', error ?? 0, error?.text ?? side, error ? 'given' : 'assumed'),
    ],
    arcmin: stages.indexArcmin,
    errors: errorCause(
      sight,
      'index',
      sight.indexSigma?.arcminutes ?? errorDefaults.index,
      `index:${sight.instrument ?? 'sextant'}:${sight.indexCheckKey}`,
    ),
    source: 'by definition; the index is checked on the horizon, a star or the Sun’s two limbs',
    ...(error ? {} : { caution: 'Check the index before and after every round of sights.' }),
  });
}

/**
 * Index correction of a sight: the index error with its sign changed. By definition; source of the error: the sight's own check.
 * @returns a working whose value is the correction, to be added (−0.8′ for 0.8′ on the arc); nought, saying so, where no error was given.
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 */
export function indexCorrection(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  return oneCorrection(sight, {
    procedure: 'indexCorrection',
    rule: 'index',
    name: 'Index correction',
    step: indexStep(sight, worked.stages),
  });
}
