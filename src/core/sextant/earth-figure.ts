import { Angle } from '../units/angle.js';
import { formatCorrection, formatLatitude } from '../units/angle-format.js';
import type { Working } from '../working/working.js';
import { centreDeg } from './parallax.js';
import type { Sight } from './sight.js';
import { stagesOf, type SightStages } from './sight-stages.js';
import { correctionStep, oneCorrection, stepInput, type CorrectionStep } from './step-parts.js';

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

/**
 * What the Earth's figure adds to the Moon's parallax at the DR, on WGS 84 (`earthFigureKernel`).
 * @returns a working whose value is the correction, to be added, within ±0.4′; nought, saying so, for another body or without a DR
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 */
export function earthFigure(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  return oneCorrection(sight, {
    procedure: 'earthFigure',
    rule: 'earth-figure',
    name: 'Figure of the Earth',
    step: earthFigureStep(worked),
    otherwise: 'only for the Moon, and with a DR',
  });
}
