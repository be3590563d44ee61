import { pointAt } from '../line/circle.js';
import { ghaRateArcminPerS, type AltitudeObservation } from '../line/observation.js';
import { Angle } from '../units/angle.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import type { Duration } from '../units/scalar.js';
import type { ErrorCause } from '../working/working.js';
import type { Random } from './random.js';

/** A round to be invented: where the vessel truly is, where the bodies stand and how the errors are spread. */
export interface RoundPlan {
  /** Where the vessel truly is. */
  readonly truth: Position;
  readonly instant: Instant;
  /** True direction of each body. */
  readonly directions: readonly { readonly azimuth: Angle; readonly altitude: Angle }[];
  /** One standard deviation of each altitude's own error. */
  readonly ownSigma: Angle;
  /** One standard deviation of an error that all altitudes share (index, dip). */
  readonly sharedSigma?: Angle;
  /** One standard deviation of the watch, shared by all. */
  readonly watchSigma?: Duration;
  /** What the budget says of the own error, when it is not the truth. */
  readonly statedSigma?: Angle;
}

/**
 * Invents the altitudes of a round: true altitude plus one normal error for each cause, shared causes drawn once.
 * The places are exact; the stated causes are those of the plan.
 * @param rng seeded source of random numbers: the same seed gives the same round
 * @returns an observation for each direction of the plan, in its order
 */
export function simulateRound(rng: Random, plan: RoundPlan): AltitudeObservation[] {
  const shared = plan.sharedSigma ? rng.normal() * plan.sharedSigma.arcminutes : 0;
  const late = plan.watchSigma ? rng.normal() * plan.watchSigma.seconds : 0;
  const { latDeg, lonDeg } = plan.truth;
  return plan.directions.map(({ azimuth, altitude }, i) => {
    const gp = pointAt(latDeg, lonDeg, azimuth.degrees, 90 - altitude.degrees);
    const rate = ghaRateArcminPerS('star');
    // A watch that is `late` seconds fast looks up the body farther west than it was.
    const noted = gp.lonDeg - (late * rate) / 60;
    const own = rng.normal() * plan.ownSigma.arcminutes;
    return {
      body: `Body ${i + 1}`,
      instant: plan.instant,
      observed: altitude.plus(Angle.arcminutes(own + shared)),
      gha: Angle.degrees(-noted).normalized(),
      declination: Angle.degrees(gp.latDeg),
      placeSource: 'simulated',
      causes: causesOf(plan),
      ...(plan.watchSigma ? { watch: { sigma: plan.watchSigma, key: 'simulated' } } : {}),
    };
  });
}

function causesOf(plan: RoundPlan): ErrorCause[] {
  const own = plan.statedSigma ?? plan.ownSigma;
  return [
    { cause: 'observer', sigmaArcmin: own.arcminutes },
    ...(plan.sharedSigma
      ? [{ cause: 'index', sigmaArcmin: plan.sharedSigma.arcminutes, sharedKey: 'simulated' }]
      : []),
  ];
}
