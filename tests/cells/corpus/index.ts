import type { CorpusCell } from './corpus-cell.js';
import { errors } from './errors.js';
import { functions } from './functions.js';
import { state } from './state.js';
import { values } from './values.js';

/** Cells that every host must run alike, in one session and in this order. */
export const CORPUS: readonly CorpusCell[] = [...state, ...functions, ...values, ...errors];
