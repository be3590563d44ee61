import type { ExpectedLine } from './line.js';
import { quantities } from './quantity.js';

/** The right form of a line: how its figure is written, or the words there are to choose from. */
export const formOfLine = <G>({
  choices,
  quantity,
}: Pick<ExpectedLine<G>, 'choices' | 'quantity'>): string =>
  choices ? choices.join(', ') : quantities[quantity].form;
