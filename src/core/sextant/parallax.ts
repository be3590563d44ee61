import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import type { Working } from '../working/working.js';
import type { Sight } from './sight.js';
import { stagesOf, type SightStages } from './sight-stages.js';
import { correctionStep, oneCorrection, stepInput, type CorrectionStep } from './step-parts.js';

/** A Moon sight without a DR lacks the Earth's figure: at most 0.2′ (f × HP), taken as 0.1′, one standard deviation. */
const FIGURE_UNKNOWN_ARCMIN = 0.1;

/** Altitude of the centre after refraction, semi-diameter and augmentation, degrees. @internal */
export const centreDeg = ({ stages }: SightStages): number =>
  stages.apparentDeg + (stages.refractionArcmin + stages.sdArcmin + stages.augmentationArcmin) / 60;

/** Nothing for a star. @internal */
export function parallaxStep(worked: SightStages): CorrectionStep | undefined {
  const { place, input, stages, sight } = worked;
  if (input.hpArcmin === 0) return undefined;
  const centre = Angle.degrees(centreDeg(worked));
  const hp = place.horizontalParallax;
  const decimals = input.hpArcmin < 1 ? 2 : 1;
  return correctionStep({
    rule: 'parallax',
    title: 'Parallax in altitude',
    latex: '\\sin p = \\sin HP\\,\\cos h',
    plain: 'sin p = sin HP cos h; near HP cos h',
    figures: `${hp.arcminutes.toFixed(decimals)}′ × cos ${centre} = ${formatCorrection(stages.parallaxArcmin)}`,
    inputs: [
      stepInput(
        'horizontal parallax',
        'HP',
        hp,
        hp.text ?? `${hp.arcminutes.toFixed(decimals)}′`,
        place.printed ? 'table' : 'computed',
      ),
      stepInput('altitude of the centre', 'h', centre, centre.toString(), 'earlier step'),
    ],
    arcmin: stages.parallaxArcmin,
    errors:
      input.moon && !sight.dr && !sight.sigma
        ? [{ cause: 'figure of the Earth', sigmaArcmin: FIGURE_UNKNOWN_ARCMIN }]
        : [],
    source: `horizontal parallax: ${place.source}`,
  });
}

/** A flag for a Moon sight worked without the Earth's figure. @internal */
export const parallaxFlags = ({ sight, input }: SightStages): string[] =>
  input.moon && !sight.dr
    ? ['Without a DR the figure of the Earth is left out of the Moon’s parallax: up to 0.2′.']
    : [];

/**
 * Parallax in altitude on a round Earth, from the horizontal parallax: sin p = sin HP cos h.
 * @returns a working whose value is the correction, to be added (positive); nought, saying so, for a star.
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 */
export function parallax(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  return oneCorrection(sight, {
    procedure: 'parallax',
    rule: 'parallax',
    name: 'Parallax in altitude',
    step: parallaxStep(worked),
    otherwise: 'a star is too far away',
    flags: parallaxFlags(worked),
  });
}
