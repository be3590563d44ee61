import { EntryError } from '../units/errors.js';
import type { BodyName } from '../sky/body-names.js';
import type { Limb } from './sight.js';
import { shown } from './shown.js';

const LIMBS: readonly Limb[] = ['lower', 'upper', 'centre'];

/** The limb, checked against the body. @throws EntryError for a limb of a star or planet, or an unknown word. */
export function readLimb(limb: Limb | undefined, body: BodyName, assumptions: string[]): Limb {
  const disc = body === 'Sun' || body === 'Moon';
  if (limb === undefined) {
    if (!disc) return 'centre';
    assumptions.push(`no limb was given: the ${body}'s lower limb is taken`);
    return 'lower';
  }
  if (!LIMBS.includes(limb))
    throw new EntryError(
      `There is no limb '${shown(limb)}'. Write 'lower', 'upper' or 'centre'.`,
      shown(limb),
    );
  if (!disc && limb !== 'centre')
    throw new EntryError(
      `${body} is taken as a point: it has no ${limb} limb. Leave the limb out.`,
      limb,
    );
  return limb;
}

/** −1 lower, 0 centre, +1 upper, as the kernels count. */
export const limbSign = (limb: Limb): -1 | 0 | 1 =>
  limb === 'lower' ? -1 : limb === 'upper' ? 1 : 0;
