import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import type { Working } from '../working/working.js';
import { certificateCovers } from './certificate.js';
import { errorCause, errorDefaults } from './error-budget.js';
import type { Sight } from './sight.js';
import { stagesOf, type SightStages } from './sight-stages.js';
import { correctionStep, oneCorrection, stepInput, type CorrectionStep } from './step-parts.js';

/** Nothing when the sight has no certificate. @internal */
export function instrumentStep({ sight, input }: SightStages): CorrectionStep | undefined {
  const table = sight.instrumentTable;
  if (!table) return undefined;
  const reading = Angle.degrees(input.readingDeg);
  const next = table.findIndex((line) => line.reading.degrees >= input.readingDeg);
  const around = next < 0 ? table.slice(-1) : table.slice(Math.max(0, next - 1), next + 1);
  const lines = around.map((l) => `${l.reading}: ${formatCorrection(l.correction.arcminutes)}`);
  return correctionStep({
    rule: 'instrument',
    title: 'Instrument correction',
    latex: 'I = I_1 + (I_2 - I_1)\\,\\frac{h_s - h_1}{h_2 - h_1}',
    plain: 'I = I₁ + (I₂ − I₁)(hs − h₁)/(h₂ − h₁)',
    figures: `certificate ${lines.join(', ')}; at ${reading} = ${formatCorrection(input.instrumentArcmin)}`,
    inputs: [
      stepInput('reading', 'hs', reading, reading.toString(), 'reading'),
      ...around.map((l) =>
        stepInput(
          `certificate at ${l.reading}`,
          'I',
          l.correction,
          formatCorrection(l.correction.arcminutes),
          'table',
        ),
      ),
    ],
    arcmin: input.instrumentArcmin,
    errors: errorCause(
      sight,
      'instrument',
      errorDefaults.instrument.certified,
      `instrument:${sight.instrument ?? 'sextant'}`,
    ),
    source: 'the instrument’s certificate, in proportion between its lines',
  });
}

/** A flag when the reading lies outside the certificate. @internal */
export function instrumentFlags({ sight, input }: SightStages): string[] {
  const table = sight.instrumentTable;
  if (!table || certificateCovers(input.readingDeg, table)) return [];
  return [
    `The reading lies outside the certificate (${table[0]?.reading} to ${table[table.length - 1]?.reading}): its nearest line is held.`,
  ];
}

/**
 * Instrument correction from the certificate, in proportion between its lines.
 * @returns a working whose value is the correction, to be added; nought, saying so, without a certificate.
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 */
export function instrumentCorrection(sight: Sight): Working<Angle> {
  const worked = stagesOf(sight);
  return oneCorrection(sight, {
    procedure: 'instrumentCorrection',
    rule: 'instrument',
    name: 'Instrument correction',
    step: instrumentStep(worked),
    otherwise: 'no certificate given',
    flags: instrumentFlags(worked),
  });
}
