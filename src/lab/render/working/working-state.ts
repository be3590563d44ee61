import type { MovableName, WorkingChanges } from '../../../views/working/recompute.js';

const NUMBERS: readonly Exclude<MovableName, 'limb'>[] = [
  'eyeHeightM',
  'indexErrorArcmin',
  'temperatureC',
  'pressureHpa',
  'watchErrorS',
];
const LIMBS = ['lower', 'upper', 'centre'] as const;

/** Changes out of a state that came from anywhere: what is not understood is left out; `null` takes a change back. */
export function mergeChanges(now: WorkingChanges, given: unknown): WorkingChanges {
  if (typeof given !== 'object' || given === null) return now;
  const state = given as Record<string, unknown>;
  const merged: Record<string, unknown> = { ...now };
  for (const name of NUMBERS) {
    const value = state[name];
    if (typeof value === 'number' && Number.isFinite(value)) merged[name] = value;
    if (value === null) delete merged[name];
  }
  const limb = LIMBS.find((l) => l === state['limb']);
  if (limb) merged['limb'] = limb;
  if (state['limb'] === null) delete merged['limb'];
  const leftOut = state['leftOut'];
  if (Array.isArray(leftOut))
    merged['leftOut'] = leftOut.filter((rule) => typeof rule === 'string').slice(0, 50);
  return merged as WorkingChanges;
}
