import { PAPER } from '../svg/inks.js';

/** A rim of paper round a text, so that it can be read over lines. */
export const HALO = {
  stroke: PAPER,
  'stroke-width': 4,
  'stroke-linejoin': 'round',
  'paint-order': 'stroke',
};
