import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import type { Working } from '../working/working.js';
import { errorCause } from './error-budget.js';
import type { Sight } from './sight.js';
import { stagesOf, type SightStages } from './sight-stages.js';
import { correctionStep, oneCorrection, stepInput, type CorrectionStep } from './step-parts.js';

/** Venus and Mars only, and not with a printed almanac's figures. @internal */
export function phaseStep({ sight, phase }: SightStages): CorrectionStep | undefined {
  if (!phase) return undefined;
  const q = phase.sunwardFromZenithDeg;
  const sd = phase.sdArcmin;
  const known = q !== undefined;
  return correctionStep({
    rule: 'phase',
    title: `Phase of ${sight.body}`,
    latex:
      '-s\\,\\frac{3\\pi}{16}\\,\\frac{\\sin i\\,(1+\\cos i)}{\\sin i + (\\pi - i)\\cos i}\\,\\cos q',
    plain: '−s (3π/16) sin i (1 + cos i)/(sin i + (π − i) cos i) cos q',
    figures: known
      ? `−${phase.offsetArcmin.toFixed(2)}′ × cos ${q.toFixed(0)}° = ${formatCorrection(phase.correctionArcmin)}`
      : `no DR, so the Sun’s side is not known: ${formatCorrection(0)} of at most ${phase.offsetArcmin.toFixed(2)}′`,
    inputs: [
      stepInput(
        'semi-diameter of the disc',
        's',
        Angle.arcminutes(sd),
        `${sd.toFixed(2)}′`,
        'computed',
      ),
      stepInput(
        'angle Sun–planet–Earth',
        'i',
        Angle.degrees(phase.phaseAngleDeg),
        `${phase.phaseAngleDeg.toFixed(0)}°`,
        'computed',
      ),
      ...(known
        ? [
            stepInput(
              'angle at the planet from zenith to Sun',
              'q',
              Angle.degrees(q),
              `${q.toFixed(0)}°`,
              'computed',
            ),
          ]
        : []),
    ],
    arcmin: phase.correctionArcmin,
    errors: errorCause(
      sight,
      'phase',
      known ? 0.2 * phase.offsetArcmin : phase.offsetArcmin / Math.SQRT2,
    ),
    source:
      'centre of light of a diffusely reflecting sphere: Lindegren, Astron. Astrophys. 57 (1977), from memory',
  });
}

/**
 * From the centre of light of Venus or Mars to the centre of the disc (`phaseCorrectionKernel`).
 * @returns a working whose value is the correction, to be added, within ±0.4′; nought, saying so, for other bodies and for figures typed from an almanac
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 */
export function phaseCorrection(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  return oneCorrection(sight, {
    procedure: 'phaseCorrection',
    rule: 'phase',
    name: 'Phase',
    step: phaseStep(worked),
    otherwise: 'only for Venus and Mars, placed by computation',
  });
}
