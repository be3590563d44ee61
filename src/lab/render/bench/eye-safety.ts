import type { FieldPoint } from '../../../views/bench/optics.js';
import { inField } from './field-scale.js';

/** What stands before a mirror or glass. */
export type Shade = 'none' | 'light' | 'dark';
export const SHADES: readonly Shade[] = ['none', 'light', 'dark'];

/** The shades of both ways that light takes into the telescope. */
export interface Shades {
  /** Before the index mirror: what is brought down. */
  readonly index: Shade;
  /** Before the horizon glass: what is seen straight ahead. */
  readonly horizon: Shade;
}

const REASONS = {
  index:
    'Stopped: the Sun stood in the telescope without the dark shade before the index mirror. With a real sextant that burns the eye, at once and for good. Put the dark shades before both mirrors first, and then look.',
  horizon:
    'Stopped: the Sun, or its image in the basin, stood straight before the telescope without the dark shade before the horizon glass. With a real sextant that burns the eye, at once and for good: the shade before the index mirror does nothing for light that comes straight in. Put the dark shades before both first, and then look.',
} as const;

/**
 * Why the exercise must stop: the Sun in the field by a way that has no dark shade.
 * @param reflected where the Sun stands by the mirrors; @param direct where it stands straight ahead; null for not in front
 * @returns null when all is well
 */
export function dangerOf(
  reflected: FieldPoint | null,
  direct: FieldPoint | null,
  shades: Shades,
): string | null {
  if (shades.index !== 'dark' && inField(reflected)) return REASONS.index;
  if (shades.horizon !== 'dark' && inField(direct)) return REASONS.horizon;
  return null;
}

/** What a shade leaves of the light of a body or of the sea, for the drawing; a choice. */
export function passes(shade: Shade, isSun: boolean): number {
  if (shade === 'none') return 1;
  if (shade === 'light') return isSun ? 1 : 0.55;
  return isSun ? 1 : 0.05;
}
