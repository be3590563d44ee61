import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import type { Working } from '../working/working.js';
import type { Sight } from './sight.js';
import { stagesOf, type SightStages } from './sight-stages.js';
import { correctionStep, oneCorrection, stepInput, type CorrectionStep } from './step-parts.js';

const IRRADIATION = stepInput('irradiation', '', 0, 'not applied', 'assumed');

/** Nothing for a point or for a centre. @internal */
export function semidiameterStep({
  sight,
  place,
  input,
  stages,
}: SightStages): CorrectionStep | undefined {
  if (input.limb === 0) return undefined;
  const lower = input.limb < 0;
  const sd = place.semidiameter;
  return correctionStep({
    rule: 'semidiameter',
    title: `Semi-diameter, ${sight.limb} limb`,
    latex: lower ? '+SD' : '-SD',
    plain: lower
      ? '+SD (lower limb: the centre is higher)'
      : '−SD (upper limb: the centre is lower)',
    figures: `SD ${sd.arcminutes.toFixed(1)}′ = ${formatCorrection(stages.sdArcmin)}`,
    inputs: [
      stepInput(
        'semi-diameter',
        'SD',
        sd,
        sd.text ?? `${sd.arcminutes.toFixed(1)}′`,
        place.printed ? 'table' : 'computed',
      ),
      IRRADIATION,
    ],
    arcmin: stages.sdArcmin,
    errors: [],
    source: `semi-diameter: ${place.source}`,
    ...(lower
      ? {}
      : {
          caution:
            'An upper limb tends to be measured a little high through irradiation; no allowance is made.',
        }),
  });
}

/** The Moon's limbs only. @internal */
export function augmentationStep({
  input,
  place,
  stages,
}: SightStages): CorrectionStep | undefined {
  if (!input.moon || input.limb === 0) return undefined;
  const centre = Angle.degrees(
    stages.apparentDeg + (stages.refractionArcmin + stages.sdArcmin) / 60,
  );
  const hp = place.horizontalParallax;
  const sign = input.limb < 0 ? '' : '−';
  return correctionStep({
    rule: 'augmentation',
    title: 'Augmentation of the Moon’s semi-diameter',
    latex: `${sign ? '-' : ''}\\left[\\arcsin\\left(\\sin SD\\,\\frac{d}{d_t}\\right) - SD\\right]`,
    plain: `${sign}[arcsin(sin SD × d/dt) − SD], d = 1/sin HP, dt = √(d² − cos²h) − sin h; near ${sign}SD sin HP sin h`,
    figures: `near ${sign}${place.semidiameter.arcminutes.toFixed(1)}′ × sin ${hp.arcminutes.toFixed(1)}′ × sin ${centre} = ${formatCorrection(stages.augmentationArcmin)}`,
    inputs: [
      stepInput('altitude of the centre', 'h', centre, centre.toString(), 'earlier step'),
      stepInput('horizontal parallax', 'HP', hp, `${hp.arcminutes.toFixed(1)}′`, 'computed'),
    ],
    arcmin: stages.augmentationArcmin,
    errors: [],
    source:
      'the Moon is nearer to the observer than to the Earth’s centre; exact for a round Earth',
  });
}

/**
 * Semi-diameter with the sign of the limb: + lower, − upper. Irradiation is not applied. Source: the sight's own almanac figures, or
 * the computed place.
 * @returns a working whose value is the correction; nought, saying so, for a star, a planet or a centre.
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 */
export function semidiameter(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  return oneCorrection(sight, {
    procedure: 'semidiameter',
    rule: 'semidiameter',
    name: 'Semi-diameter',
    step: semidiameterStep(worked),
    otherwise: 'the centre is observed',
  });
}

/**
 * Augmentation of the Moon's semi-diameter, exact on a round Earth (`augmentationKernel`).
 * @returns a working whose value is the correction with the sign of the limb, + lower, up to 0.3′; nought, saying so, for any other body
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 */
export function augmentation(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  return oneCorrection(sight, {
    procedure: 'augmentation',
    rule: 'augmentation',
    name: 'Augmentation',
    step: augmentationStep(worked),
    otherwise: 'only a limb of the Moon is augmented',
  });
}
