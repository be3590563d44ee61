import { Angle } from '../units/angle.js';
import { formatCorrection, formatLatitude } from '../units/angle-format.js';
import { workedFrom } from '../working/subject.js';
import type { Working } from '../working/working.js';
import { errorCause, errorDefaults } from './error-budget.js';
import type { Sight } from './sight.js';
import { stagesOf, type SightStages } from './sight-stages.js';
import {
  alone,
  correctionStep,
  nothingToApply,
  stepInput,
  type CorrectionStep,
} from './step-parts.js';

/** A Moon sight without a DR lacks the Earth's figure: at most 0.2′ (f × HP), taken as 0.1′, one standard deviation. */
const FIGURE_UNKNOWN_ARCMIN = 0.1;

/** Altitude of the centre after refraction, semi-diameter and augmentation, degrees. */
const centreDeg = ({ stages }: SightStages): number =>
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

/** The Moon with a DR only. @internal */
export function earthFigureStep(worked: SightStages): CorrectionStep | undefined {
  const { sight, input, stages } = worked;
  if (!input.moon || !sight.dr) return undefined;
  const centre = Angle.degrees(centreDeg(worked));
  const azimuth = Angle.degrees(input.azimuthDeg);
  const z = `${input.azimuthDeg.toFixed(0).padStart(3, '0')}°`;
  const lat = sight.dr.latitude;
  return correctionStep({
    rule: 'earth-figure',
    title: 'Figure of the Earth in the Moon’s parallax',
    latex:
      'OB \\approx 0.0032^{\\circ}\\,(\\sin 2\\varphi\\,\\cos Z\\,\\sin h - \\sin^2\\varphi\\,\\cos h)',
    plain:
      'OB = p on the WGS 84 ellipsoid − p on a sphere; near 0.19′ (sin 2φ cos Z sin h − sin²φ cos h)',
    figures: `φ ${formatLatitude(lat.degrees)}, Z ${z}, h ${centre} = ${formatCorrection(stages.figureArcmin)}`,
    inputs: [
      stepInput('latitude of the DR', 'φ', lat, lat.text ?? formatLatitude(lat.degrees), 'given'),
      stepInput('azimuth at the DR', 'Z', azimuth, z, 'computed'),
      stepInput('altitude of the centre', 'h', centre, centre.toString(), 'earlier step'),
    ],
    arcmin: stages.figureArcmin,
    errors: [],
    source: 'exact on WGS 84; first term as in the Nautical Almanac, sight reduction procedures',
  });
}

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

/** A flag for a Moon sight worked without the Earth's figure. @internal */
export const parallaxFlags = ({ sight, input }: SightStages): string[] =>
  input.moon && !sight.dr
    ? ['Without a DR the figure of the Earth is left out of the Moon’s parallax: up to 0.2′.']
    : [];

/**
 * Parallax in altitude on a round Earth, from the horizontal parallax.
 * @returns a working whose value is the correction, to be added (positive); nought, saying so, for a star.
 */
export function parallax(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  const step = parallaxStep(worked);
  const title = `Parallax in altitude: ${sight.bodyAndLimb}`;
  return workedFrom(
    step
      ? alone(title, step, parallaxFlags(worked))
      : nothingToApply('parallax', title, 'a star is too far away'),
    'parallax',
    sight,
  );
}

/** What the Earth's figure adds to the Moon's parallax at the DR; nought, saying so, otherwise. */
export function earthFigure(sight: Sight): Working<Angle> {
  const step = earthFigureStep(stagesOf(sight));
  const title = `Figure of the Earth: ${sight.bodyAndLimb}`;
  return workedFrom(
    step
      ? alone(title, step)
      : nothingToApply('earth-figure', title, 'only for the Moon, and with a DR'),
    'earthFigure',
    sight,
  );
}

/** From the centre of light of Venus or Mars to the centre of the disc; nought, saying so, otherwise. */
export function phaseCorrection(sight: Sight): Working<Angle> {
  const step = phaseStep(stagesOf(sight));
  const title = `Phase: ${sight.bodyAndLimb}`;
  return workedFrom(
    step
      ? alone(title, step)
      : nothingToApply('phase', title, 'only for Venus and Mars, placed by computation'),
    'phaseCorrection',
    sight,
  );
}

/** Error of the place itself, as the last cause of the budget. @internal */
export const almanacErrors = ({ sight, place }: SightStages) =>
  errorCause(
    sight,
    'almanac',
    place.printed ? errorDefaults.almanac.printed : errorDefaults.almanac.computed,
  );
