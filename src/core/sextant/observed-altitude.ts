import { Angle } from '../units/angle.js';
import { workedFrom } from '../working/subject.js';
import { Uncertainty, Working, type ErrorCause, type Step } from '../working/working.js';
import { dipStep } from './dip.js';
import { entryStep, strayFlags } from './entry-step.js';
import { indexStep } from './index-correction.js';
import { instrumentFlags, instrumentStep } from './instrument-correction.js';
import { moonLimbFlags } from './moon-limb.js';
import { earthFigureStep } from './earth-figure.js';
import { errorCause, errorDefaults } from './error-budget.js';
import { parallaxFlags, parallaxStep } from './parallax.js';
import { phaseStep } from './phase.js';
import { refractionFlags, refractionStep } from './refraction.js';
import { augmentationStep, semidiameterStep } from './semidiameter.js';
import type { Sight } from './sight.js';
import { stagesOf, type SightStages } from './sight-stages.js';
import type { CorrectionStep } from './step-parts.js';

/** Puts steps in order, keeping the running value and the share of each error that reaches the altitude. */
class Ladder {
  readonly steps: Step<Angle>[] = [];
  constructor(private running: Angle) {}
  get value(): Angle {
    return this.running;
  }

  /** What one minute of error in this step makes in the observed altitude. */
  add(step: CorrectionStep | undefined, share = 1): this {
    if (!step) return this;
    this.running = this.running.plus(step.correction);
    this.steps.push({ ...step, result: this.running, errors: scaled(step.errors, share) });
    return this;
  }
  /** A step that is not an addition: a start, a halving, a name for what is reached. */
  reach(step: Omit<Step<Angle>, 'result'>, value: Angle, share = 1): this {
    this.running = value;
    this.steps.push({ ...step, result: value, errors: scaled(step.errors, share) });
    return this;
  }
}

/** Only a shared error needs its sign: it tells how it goes with the same error in other sights. */
const scaled = (errors: readonly ErrorCause[], share: number): readonly ErrorCause[] =>
  share === 1
    ? errors
    : errors.map((e) => ({
        ...e,
        sigmaArcmin: e.sigmaArcmin * (e.sharedKey === undefined ? Math.abs(share) : share),
      }));

/**
 * From the reading to the observed altitude (of the centre, as from the Earth's centre). Order: index, instrument,
 * halving (artificial horizon), dip, supplement (back sight), apparent altitude, refraction, semi-diameter,
 * augmentation, parallax, figure of the Earth, phase.
 * @returns a working whose value is Ho, unrounded; every step prints its arithmetic to the tenth. In a back sight
 * the errors of index, instrument and dip count with the opposite sign, which their `sigmaArcmin` keeps.
 * @throws OutOfRangeError when the body is more than 1° below the horizon.
 * @example
 * ```ts
 * import { observedAltitude, position, sight } from 'cocked-hat';
 *
 * const forenoon = sight({
 *   body: 'Sun', limb: 'lower', reading: '39°13.7′', time: '2027-05-11 09:42:17 UTC',
 *   eyeHeight: '2.6 m', indexError: '1.4′ off the arc', dr: position('19°31′ S', '001°12′ W'),
 * });
 * const ho = observedAltitude(forenoon);
 * `${ho.value} ${ho.uncertainty}`
 * ```
 * ```text
 * '39°27.0′ ± 0.8′, 1σ'
 * ```
 */
export function observedAltitude(sight: Sight): Working<Angle> {
  return workedFrom(observedAltitudeOf(stagesOf(sight)), 'observedAltitude', sight);
}

function observedAltitudeOf(worked: SightStages): Working<Angle> {
  const { sight, input, stages } = worked;
  const artificial = input.horizon === 'artificial';
  const side = stages.backSight ? -1 : 1;
  const share = artificial ? side / 2 : side;
  const ladder = new Ladder(Angle.degrees(input.readingDeg));
  ladder.reach(entryStep(sight), Angle.degrees(input.readingDeg), share);
  ladder.add(indexStep(sight, stages), share).add(instrumentStep(worked), share);
  if (artificial) ladder.reach(halvingStep(ladder.value), Angle.degrees(stages.angleDeg));
  ladder.add(dipStep(worked), side);
  if (stages.backSight)
    ladder.reach(backSightStep(ladder.value), Angle.degrees(stages.apparentDeg));
  ladder.reach(apparentStep(stages.apparentDeg), Angle.degrees(stages.apparentDeg));
  ladder
    .add(refractionStep(worked))
    .add(semidiameterStep(worked))
    .add(augmentationStep(worked))
    .add(parallaxStep(worked))
    .add(earthFigureStep(worked))
    .add(phaseStep(worked));
  const result = { ...resultStep(worked), result: Angle.degrees(stages.observedDeg) };
  return new Working<Angle>(
    `Observed altitude: ${sight.bodyAndLimb}`,
    [...ladder.steps, result],
    flagsOf(worked),
    sight.sigma
      ? new Uncertainty([{ cause: 'stated', sigmaArcmin: sight.sigma.arcminutes }])
      : undefined,
  );
}

/** Over this altitude rocking finds no clear lowest point and the position line is visibly curved; common practice, no source. */
const NEAR_ZENITH_DEG = 80;
const ZENITH =
  'So near the zenith the foot of the swing is hard to find and the position line is a small circle, not a straight line.';

const halvingStep = (angle: Angle): Omit<Step<Angle>, 'result'> => ({
  rule: 'halving',
  title: 'Artificial horizon: half the angle',
  kind: 'result',
  formula: { latex: '\\tfrac{1}{2}\\,(h_s + IC + I)', plain: '(hs + IC + I)/2' },
  figures: `${angle}/2; no dip`,
  inputs: [],
  errors: [],
  source: 'the angle between the body and its image is twice its altitude',
});

const backSightStep = (angle: Angle): Omit<Step<Angle>, 'result'> => ({
  rule: 'back-sight',
  title: 'Back sight: supplement',
  kind: 'result',
  formula: { latex: '180^{\\circ} - h', plain: '180° − h' },
  figures: `180° − ${angle}: measured from the opposite horizon`,
  inputs: [],
  errors: [],
  source: 'common practice, no source',
  caution:
    'In a back sight the limb that touches the horizon is the other one: name the limb as it lies in the sky.',
});

const apparentStep = (apparentDeg: number): Omit<Step<Angle>, 'result'> => ({
  rule: 'apparent',
  title: 'Apparent altitude',
  kind: 'rest',
  formula: { latex: 'h_a', plain: 'ha' },
  figures: '',
  inputs: [],
  errors: [],
  source: 'by definition',
  ...(apparentDeg > NEAR_ZENITH_DEG ? { caution: ZENITH } : {}),
});

function resultStep(worked: SightStages): Omit<Step<Angle>, 'result'> {
  return {
    rule: 'observed',
    title: 'Observed altitude',
    kind: 'rest',
    formula: { latex: 'H_o', plain: 'Ho' },
    figures: '',
    inputs: [],
    errors: almanacErrors(worked),
    source: 'by definition',
  };
}

function flagsOf(worked: SightStages): string[] {
  return [
    ...worked.sight.doubts,
    ...strayFlags(worked.sight),
    ...instrumentFlags(worked),
    ...refractionFlags(worked),
    ...parallaxFlags(worked),
    ...moonLimbFlags(worked),
  ];
}

/** Error of the place itself, as the last cause of the budget */
const almanacErrors = ({ sight, place }: SightStages) =>
  errorCause(
    sight,
    'almanac',
    place.printed ? errorDefaults.almanac.printed : errorDefaults.almanac.computed,
  );
