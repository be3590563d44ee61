import { isBodyName, type BodyName } from '../../../core/sky/index.js';
import { BOUNDS } from '../../../views/sky/sky-data.js';
import type { SkyScene } from '../../../views/sky/sky-svg.js';
import type { SkyModel, SkySettings } from '../../../views/sky/sky-model.js';
import { timeOfDay } from '../../../views/sky/time-entry.js';

/** Figures of the settings that a reader slides or types. */
export const FIGURES = ['eyeHeightM', 'indexErrorArcmin', 'lowestDeg', 'highestDeg'] as const;
export type Figure = (typeof FIGURES)[number];

/** What code may set: times, figures within bounds, names of bodies; the rest is left out. */
export function readable(given: unknown, model: SkyModel): Partial<SkySettings> {
  const from = (given ?? {}) as Record<string, unknown>;
  const change: Record<string, unknown> = {};
  for (const name of [...FIGURES, 'count'] as const) {
    const value = from[name];
    const [least, most] = BOUNDS[name];
    const isWhole = name !== 'count' || Number.isInteger(value);
    if (typeof value === 'number' && value >= least && value <= most && isWhole)
      change[name] = value;
  }
  if (Array.isArray(from['hidden'])) change['hidden'] = from['hidden'].filter(isName);
  const { atMs, time } = from;
  if (typeof atMs === 'number' && atMs >= model.firstMs && atMs <= model.lastMs)
    change['atMs'] = atMs;
  if (typeof time === 'string') change['atMs'] = timeOrNothing(time, model) ?? change['atMs'];
  if (change['atMs'] === undefined) delete change['atMs'];
  return change as Partial<SkySettings>;
}

const isName = (name: unknown): name is BodyName => typeof name === 'string' && isBodyName(name);

function timeOrNothing(time: string, model: SkyModel): number | undefined {
  try {
    return timeOfDay(time, model);
  } catch {
    return undefined;
  }
}

/** The same stretch of time while the moment lies well inside it, so that the strip does not run away. */
export function keptSpan(span: SkyScene['span'], atMs: number): SkyScene['span'] | null {
  const margin = (span.toMs - span.fromMs) * 0.04;
  return atMs > span.fromMs + margin && atMs < span.toMs - margin ? span : null;
}
