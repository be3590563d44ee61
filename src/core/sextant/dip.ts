import type { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import type { ErrorCause, Working } from '../working/working.js';
import { errorCause, errorDefaults } from './error-budget.js';
import { ASSUMED_EYE_HEIGHT } from './horizon.js';
import { dipKernel, dipShortKernel } from './dip-kernel.js';
import type { Sight } from './sight.js';
import { stagesOf, type SightStages } from './sight-stages.js';
import { correctionStep, oneCorrection, stepInput, type CorrectionStep } from './step-parts.js';

const ABNORMAL =
  'Dip is the least certain correction: with air much warmer or colder than the water the horizon can stand some minutes off, and nothing on board shows it.';

/** Nothing with an artificial or bubble horizon. @internal */
export function dipStep(worked: SightStages): CorrectionStep | undefined {
  const { horizon } = worked.sight;
  if (horizon.kind === 'natural') return seaHorizonStep(worked);
  if (horizon.kind === 'short') return waterlineStep(worked, horizon.distance.toString());
  return undefined;
}

function eyeInput(sight: Sight) {
  const eye = sight.eyeHeight ?? ASSUMED_EYE_HEIGHT;
  return stepInput(
    'height of eye',
    'h',
    eye,
    eye.toString(),
    sight.eyeHeight ? 'given' : 'assumed',
  );
}

function seaHorizonStep({ sight, input, stages }: SightStages): CorrectionStep {
  const metres = round(input.eyeHeightM, 2);
  return correctionStep({
    rule: 'dip',
    title: 'Dip of the sea horizon',
    latex: 'D = -1.758^{\\prime}\\sqrt{h}',
    plain: 'dip = −1.758′ √h, h in metres',
    figures: `−1.758′ × √${metres} = ${formatCorrection(stages.dipArcmin)}`,
    inputs: [eyeInput(sight)],
    arcmin: stages.dipArcmin,
    errors: dipErrors(sight, heightSigma(input.eyeHeightM, dipKernel)),
    source: 'Nautical Almanac, sight reduction procedures: 0.0293° √h; Bowditch',
    caution: ABNORMAL,
  });
}

function waterlineStep({ sight, input, stages }: SightStages, distance: string): CorrectionStep {
  const feet = round(input.eyeHeightM / 0.3048, 1);
  const miles = round(input.distanceM / 1852, 2);
  const dip = (h: number, d: number) => dipShortKernel(h, d);
  const fraction = errorDefaults.distanceFraction;
  const distanceSigma = Math.abs(
    dip(input.eyeHeightM, input.distanceM * (1 + fraction)) -
      dip(input.eyeHeightM, input.distanceM),
  );
  const eyeSigma = heightSigma(input.eyeHeightM, (h) => dip(h, input.distanceM));
  return correctionStep({
    rule: 'dip',
    title: 'Dip short of the horizon',
    latex: 'D = -\\arctan\\left(\\frac{h}{6076.1\\,d} + \\frac{d}{8268}\\right)',
    plain: 'dip = −arctan(h/(6076.1 d) + d/8268), h in feet, d in nautical miles',
    figures: `−arctan(${feet}/(6076.1 × ${miles}) + ${miles}/8268) = ${formatCorrection(stages.dipArcmin)}`,
    inputs: [
      eyeInput(sight),
      stepInput('distance of the waterline', 'd', input.distanceM, distance, 'given'),
    ],
    arcmin: stages.dipArcmin,
    errors: dipErrors(sight, Math.hypot(eyeSigma, distanceSigma)),
    source: 'Bowditch (NGA Pub. No. 9) vol. II, explanation of Table 14, from memory',
    caution:
      'Close to a waterline the dip changes fast with its distance and the height of eye: measure both well.',
  });
}

/** What 0.3 m of doubt in the height of eye does to the dip, minutes of arc. */
function heightSigma(eyeHeightM: number, dip: (heightM: number) => number): number {
  const h = errorDefaults.eyeHeightM;
  return (dip(eyeHeightM + h) - dip(Math.max(0, eyeHeightM - h))) / 2;
}

function dipErrors(sight: Sight, geometry: number): readonly ErrorCause[] {
  return errorCause(sight, 'dip', Math.hypot(errorDefaults.dip, geometry), `dip:${sight.session}`);
}

/** A figure as short as it can be written with at most that many decimals. */
const round = (value: number, decimals: number) => String(Number(value.toFixed(decimals)));

/**
 * Dip: how far the horizon lies below the level through the eye, refraction of the horizon included. Source: Nautical Almanac, sight
 * reduction procedures; short of the horizon Bowditch, Table 14 (`dipKernel`, `dipShortKernel`).
 * @returns a working whose value is the correction, to be added (negative); nought, saying so, with an artificial
 * or bubble horizon.
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 * @example
 * ```ts
 * import { dip, sight } from 'cocked-hat';
 *
 * const seen = sight({
 *   body: 'Sun', limb: 'lower', reading: '39°13.7′', time: '2027-05-11 09:42:17 UTC', eyeHeight: '2.6 m',
 * });
 * dip(seen).value.toString()
 * ```
 * ```text
 * '−2.8′'
 * ```
 */
export function dip(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  return oneCorrection(sight, {
    procedure: 'dip',
    rule: 'dip',
    name: 'Dip',
    step: dipStep(worked),
    otherwise: `no dip with ${article(sight.horizon.kind)} horizon`,
  });
}

const article = (kind: string) => (kind === 'artificial' ? `an ${kind}` : `a ${kind}`);
