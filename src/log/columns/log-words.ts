/** Columns whose cells hold one of a short list of words, and what else is read as each. */
import { wordReader } from './read-word.js';

/** What the altitude was measured from, as a log names it. */
export type HorizonWord = 'natural' | 'short' | 'artificial' | 'bubble';
/** Which edge of the disc, or its centre. */
export type LimbWord = 'lower' | 'upper' | 'centre';
/** Whether the position of a row was surveyed or is dead reckoning. */
export type PositionKind = 'known' | 'DR';

export const readLimb = wordReader<LimbWord>(
  'limb',
  new Map<string, LimbWord>([
    ['lower', 'lower'],
    ['LL', 'lower'],
    ['L', 'lower'],
    ['upper', 'upper'],
    ['UL', 'upper'],
    ['U', 'upper'],
    ['centre', 'centre'],
    ['center', 'centre'],
  ]),
  ['lower', 'upper', 'centre'],
);
export const readHorizon = wordReader<HorizonWord>(
  'horizon',
  new Map<string, HorizonWord>([
    ['natural', 'natural'],
    ['sea', 'natural'],
    ['short', 'short'],
    ['dip short', 'short'],
    ['shore', 'short'],
    ['artificial', 'artificial'],
    ['bubble', 'bubble'],
  ]),
  ['natural', 'short', 'artificial', 'bubble'],
);
export const readPositionKind = wordReader<PositionKind>(
  'kind of position',
  new Map<string, PositionKind>([
    ['known', 'known'],
    ['DR', 'DR'],
    ['EP', 'DR'],
  ]),
  ['known', 'DR'],
);
export const readAccepted = wordReader<boolean>(
  'verdict',
  new Map<string, boolean>([
    ['yes', true],
    ['accepted', true],
    ['no', false],
    ['rejected', false],
  ]),
  ['yes', 'no'],
);
