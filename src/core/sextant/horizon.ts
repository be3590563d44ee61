import { EntryError, OutOfRangeError } from '../units/errors.js';
import { length } from '../units/quantity-text.js';
import { Length } from '../units/scalar.js';
import { horizonDistanceKernel } from './dip-kernel.js';
import type { HorizonKind } from './altitude-kernel.js';
import type { Horizon, SightData } from './sight.js';
import type { SightFields } from './sight-fields.js';
import { instanceOf, shown } from './shown.js';

const KINDS: readonly HorizonKind[] = ['natural', 'short', 'artificial', 'bubble'];
const GREATEST_EYE_M = 500;
const FORM =
  "Write horizon: 'natural', 'short' (with waterlineDistance), 'artificial' or 'bubble'.";

/**
 * The horizon and the height of eye. @throws EntryError on an unknown horizon, a waterline without its distance;
 * OutOfRangeError on an eye below sea level or over 500 m.
 */
export function readHorizon(
  fields: SightFields,
  assumptions: string[],
  doubts: string[],
): Pick<SightData, 'horizon' | 'eyeHeight'> {
  const horizon = readKind(fields);
  const eye = readEye(fields);
  const needsEye = horizon.kind === 'natural' || horizon.kind === 'short';
  if (needsEye && !eye) assumptions.push('no height of eye was given: 2 m is taken for the dip');
  if (horizon.kind === 'short') {
    const seaHorizonM = horizonDistanceKernel((eye ?? ASSUMED_EYE_HEIGHT).metres);
    if (horizon.distance.metres >= seaHorizonM) {
      doubts.push(
        `The waterline at ${horizon.distance} lies at or beyond the sea horizon (${(seaHorizonM / 1852).toFixed(1)} nmi from that height of eye): the dip of the sea horizon is used.`,
      );
      return { horizon: { kind: 'natural' }, ...(eye ? { eyeHeight: eye } : {}) };
    }
  }
  return { horizon, ...(eye ? { eyeHeight: eye } : {}) };
}

/** The height of eye taken when none is given: a person sitting in a small boat; common practice, no source. */
export const ASSUMED_EYE_HEIGHT = Length.metres(2);

function readKind(fields: SightFields): Horizon {
  const given = fields.horizon ?? (fields.waterlineDistance === undefined ? 'natural' : 'short');
  const kind = typeof given === 'string' ? given : given?.kind;
  if (!KINDS.includes(kind))
    throw new EntryError(`There is no horizon '${shown(kind ?? given)}'. ${FORM}`, shown(given));
  if (kind !== 'short') {
    if (fields.waterlineDistance !== undefined)
      throw new EntryError(
        `A distance of the waterline belongs to the short horizon, not the ${kind} one. ${FORM}`,
        shown(fields.waterlineDistance),
      );
    return Object.freeze({ kind });
  }
  const raw =
    fields.waterlineDistance ?? (typeof given === 'string' ? undefined : distanceOf(given));
  if (raw === undefined)
    throw new EntryError(
      "Dip short of the horizon needs the distance of the waterline: waterlineDistance: '0.4 nmi'.",
      kind,
    );
  const distance =
    typeof raw === 'string'
      ? length(raw)
      : instanceOf(Length, raw, "A distance is a length. Write '0.4 nmi'.");
  if (!(distance.metres > 0))
    throw new OutOfRangeError(`the waterline must be more than 0 m away, not ${distance}`);
  return Object.freeze({ kind, distance });
}

const distanceOf = (horizon: Horizon) => (horizon.kind === 'short' ? horizon.distance : undefined);

function readEye(fields: SightFields): Length | undefined {
  if (fields.eyeHeight === undefined) return undefined;
  const eye = typeof fields.eyeHeight === 'string' ? length(fields.eyeHeight) : fields.eyeHeight;
  if (!(eye instanceof Length))
    throw new EntryError("A height of eye is a length. Write '2.6 m' or '9 ft'.", shown(eye));
  if (eye.metres < 0)
    throw new OutOfRangeError(
      `a height of eye of ${eye} is below sea level: give the height above the water, such as 2.6 m`,
    );
  if (eye.metres > GREATEST_EYE_M)
    throw new OutOfRangeError(
      `a height of eye of ${eye} is more than ${GREATEST_EYE_M} m: is the unit right?`,
    );
  return eye;
}
