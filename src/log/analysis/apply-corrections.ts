import type { LogRow, SightLog } from '../sight-log.js';
import type { PassageModel, PassageTerm } from './passage-model.js';
import { clear } from './words.js';

const DAY_MS = 86_400_000;

/**
 * The log as it would be with the errors found taken off: the watch from the time, the rest from the index error (an
 * observer's bias and a sextant's own error count there as if read on the arc). Only terms whose interval leaves zero
 * out are applied. What was written stays in the text columns.
 * @param beginsMs time that drift and rate count from: the first reading of the model
 */
export function applyCorrections(log: SightLog, model: PassageModel, beginsMs: number): SightLog {
  const terms = model.terms.filter((t) => clear(t.estimate));
  const days = (row: LogRow) => (row.utcMs - beginsMs) / DAY_MS;
  const readsHigh = (row: LogRow) => sum(terms, (t) => angular(t, row, days(row)));
  const fastS = (row: LogRow) => sum(terms, (t) => ofWatch(t, days(row)));
  const scale = (row: LogRow) => (row.horizon === 'artificial' ? 2 : 1);
  return log.revise((row) => ({
    indexErrorArcmin: (row.indexErrorArcmin ?? 0) + scale(row) * readsHigh(row),
    utcMs: row.utcMs - Math.round(fastS(row) * 1000),
  }));
}

const sum = (terms: readonly PassageTerm[], of: (term: PassageTerm) => number): number =>
  terms.reduce((total, term) => total + of(term), 0);

function angular({ kind, of, estimate }: PassageTerm, row: LogRow, days: number): number {
  if (kind === 'observer') return of === (row.observer ?? 'observer') ? estimate.value : 0;
  if (of !== (row.instrument ?? 'sextant')) return 0;
  if (kind === 'instrument') return estimate.value;
  return kind === 'index drift' ? estimate.value * days : 0;
}

function ofWatch({ kind, estimate }: PassageTerm, days: number): number {
  if (kind === 'watch error') return estimate.value;
  return kind === 'watch rate' ? estimate.value * days : 0;
}
