import type { Fix } from '../../core/fix/index.js';
import { anything, list, oneOf, optional, record, text, within } from '../check.js';
import { fixInputs, type FixInputs } from '../chart/chart-inputs.js';
import { fixLabel } from '../chart/chart-text.js';
import { candidatesAt, type Candidate } from './uncertainty-model.js';

/** Data of the uncertainty view. */
export interface UncertaintyData {
  readonly format: 1;
  readonly title: string;
  readonly fix: FixInputs;
  readonly candidates: readonly Candidate[];
  readonly viewId?: string;
}

export function uncertaintyData(fix: Fix, viewId?: string): UncertaintyData {
  return {
    format: 1,
    title: `How well is it known? ${fixLabel(fix)}`,
    fix: fixInputs(fix),
    candidates: candidatesAt(fix.position, fix.instant),
    ...(viewId ? { viewId } : {}),
  };
}

const candidate = record({
  body: text,
  ghaDeg: within(-360, 720),
  decDeg: within(-90, 90),
});

const fields = record({
  format: oneOf(1),
  title: text,
  fix: record({ observations: list(anything, 500), options: anything }),
  candidates: list(candidate, 100),
  viewId: optional(text),
});

/** Uncertainty data out of a notebook file. @throws ViewDataError naming the field that is wrong */
export const checkUncertaintyData = (value: unknown): UncertaintyData =>
  fields(value, '') as UncertaintyData;
