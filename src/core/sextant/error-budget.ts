import type { ErrorCause } from '../working/working.js';
import type { Sight } from './sight.js';

/** Causes of error in an observed altitude that the budget knows by name. */
export type SextantCause =
  'observer' | 'reading' | 'index' | 'instrument' | 'dip' | 'refraction' | 'almanac' | 'phase';

/** The causes of error in an observed altitude, in the order in which they are listed. */
export const sextantCauses: readonly SextantCause[] = Object.freeze([
  'observer',
  'reading',
  'index',
  'instrument',
  'dip',
  'refraction',
  'almanac',
  'phase',
]);

/**
 * One standard deviation of each cause where the user states none, minutes of arc of the angle measured, and where
 * it comes from. Refraction has a formula of its own (`refractionSigmaKernel`).
 *
 * Together they make 0.8′ for one reading to a sea horizon. A check from outside: 15 and 20 sights of Venus and the
 * Sun from a sailing ship, each against GPS, scattered by 0.88′ and 0.92′ (an individual report, not a paper).
 */
export const errorDefaults = Object.freeze({
  observer: Object.freeze({ natural: 0.6, short: 0.6, artificial: 0.4, bubble: 2 }),
  reading: 0.1,
  index: 0.2,
  /** With a certificate, and without. */
  instrument: Object.freeze({ certified: 0.1, uncertified: 0.2 }),
  /** The horizon itself; 0.3′ to 0.5′ is called the normal spread at sea. */
  dip: 0.4,
  /** Height of eye, metres, and distance of a waterline, as a fraction. */
  eyeHeightM: 0.3,
  distanceFraction: 0.1,
  /** Places worked here, and typed from an almanac printed to the tenth. */
  almanac: Object.freeze({ computed: 0.02, printed: 0.1 }),
  source:
    'error budget: common practice, no source; spread of dip 0.3′–0.5′ from individual reports',
});

/**
 * The cause with its default, unless the sight's own budget or its stated total says otherwise; none where the total was stated or the
 * cause is nought.
 * @param defaultArcmin one standard deviation, minutes of arc
 * @param sharedKey sights with the same key share this error
 */
export function errorCause(
  sight: Sight,
  cause: SextantCause,
  defaultArcmin: number,
  sharedKey?: string,
  /** What the mean of several readings makes of it: 1/√n. */
  factor = 1,
): readonly ErrorCause[] {
  if (sight.sigma) return [];
  const sigmaArcmin = (sight.errorBudget[cause]?.arcminutes ?? defaultArcmin) * factor;
  if (sigmaArcmin === 0) return [];
  return [sharedKey === undefined ? { cause, sigmaArcmin } : { cause, sigmaArcmin, sharedKey }];
}
