import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import type { Working } from '../working/working.js';
import { errorCause } from './error-budget.js';
import {
  LOW_ALTITUDE_DEG,
  refractionSigmaKernel,
  STANDARD_PRESSURE_HPA,
  STANDARD_TEMPERATURE_C,
  usesIntegral,
} from './refraction-kernel.js';
import { celsius, hectopascals } from '../units/scalar.js';
import type { Sight } from './sight.js';
import { stagesOf, type SightStages } from './sight-stages.js';
import { correctionStep, oneCorrection, stepInput, type CorrectionStep } from './step-parts.js';

const FORMULA = {
  latex:
    'R = -\\frac{0.28\\,P}{T + 273}\\cdot\\frac{1^{\\prime}}{\\tan\\left(h_a + \\frac{7.32}{h_a + 4.32}\\right)}',
  plain: 'R = −0.28 P/(T + 273) × 1′/tan(ha + 7.32/(ha + 4.32)), in degrees, °C and hPa',
  source: 'Nautical Almanac, sight reduction procedures (2004 and later); after G. G. Bennett 1982',
};
const INTEGRAL = {
  latex:
    'R = \\int_0^{z_a} \\frac{r\\,\\mathrm{d}n/\\mathrm{d}r}{n + r\\,\\mathrm{d}n/\\mathrm{d}r}\\,\\mathrm{d}\\psi',
  plain: 'R = ∫ (r dn/dr)/(n + r dn/dr) dψ along the ray, standard atmosphere from P and T',
  source:
    'integral of Auer and Standish (Astron. J. 119, 2000) through a standard atmosphere, 6.5 K/km to 11 km',
};

/** @internal */
export function refractionStep({ sight, input, stages }: SightStages): CorrectionStep {
  const alt = stages.apparentDeg;
  const integral = usesIntegral(alt, sight.refractionModel);
  const { latex, plain, source } = integral ? INTEGRAL : FORMULA;
  const apparent = Angle.degrees(alt);
  const air = `${round1(input.pressureHpa)} hPa and ${round1(input.temperatureC)} °C`;
  const result = formatCorrection(stages.refractionArcmin);
  const h = alt.toFixed(2);
  const figures = integral
    ? `integral at ${apparent}, ${air} = ${result}`
    : `−0.28 × ${round1(input.pressureHpa)}/(${round1(input.temperatureC)} + 273) × 1′/tan(${h}° + 7.32/(${h} + 4.32)) = ${result}`;
  const caution = cautionFor(alt);
  return correctionStep({
    rule: 'refraction',
    title: 'Refraction',
    latex,
    plain,
    figures,
    inputs: [
      stepInput('apparent altitude', 'ha', apparent, apparent.toString(), 'earlier step'),
      stepInput(
        'temperature',
        'T',
        sight.temperature ?? celsius(STANDARD_TEMPERATURE_C),
        (sight.temperature ?? celsius(STANDARD_TEMPERATURE_C)).toString(),
        sight.temperature ? 'given' : 'assumed',
      ),
      stepInput(
        'pressure',
        'P',
        sight.pressure ?? hectopascals(STANDARD_PRESSURE_HPA),
        (sight.pressure ?? hectopascals(STANDARD_PRESSURE_HPA)).toString(),
        sight.pressure ? 'given' : 'assumed',
      ),
    ],
    arcmin: stages.refractionArcmin,
    errors: errorCause(
      sight,
      'refraction',
      refractionSigmaKernel(
        alt,
        -stages.refractionArcmin,
        sight.temperature !== undefined,
        sight.pressure !== undefined,
      ),
    ),
    source,
    ...(caution ? { caution } : {}),
  });
}

function cautionFor(altDeg: number): string | undefined {
  if (altDeg >= LOW_ALTITUDE_DEG) return undefined;
  return altDeg < 3
    ? 'So near the horizon refraction changes with every layer of air: the figure may be minutes wrong. Take another body, or wait.'
    : 'Below 10° refraction depends much on the air: give temperature and pressure, and trust the sight less.';
}

/** A flag for an altitude low enough to spoil the result. @internal */
export function refractionFlags({ stages }: SightStages): string[] {
  const apparent = Angle.degrees(stages.apparentDeg);
  if (stages.apparentDeg < 0)
    return [`The apparent altitude is ${apparent}: below the level of the eye.`];
  return stages.apparentDeg < 3
    ? [`The apparent altitude is only ${apparent}: refraction there may be minutes wrong.`]
    : [];
}

const round1 = (value: number) => String(Number(value.toFixed(1))).replace('-', '−');

/**
 * Refraction at the limb observed: the almanac's formula, and below 10° the integral through a standard atmosphere,
 * unless the sight names a model. Source: `refractionFormulaKernel`, `refractionIntegralKernel`.
 * @returns a working whose value is the correction, to be added (negative), with the uncertainty of the air.
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 */
export function refraction(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  return oneCorrection(sight, {
    procedure: 'refraction',
    rule: 'refraction',
    name: 'Refraction',
    step: refractionStep(worked),
    flags: refractionFlags(worked),
  });
}
