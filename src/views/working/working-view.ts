import type { Working } from '../../core/working/index.js';
import { View } from '../live/view.js';
import { MIME, type MimeBundle } from '../mime.js';
import { workingData } from './working-data.js';
import { workingHtml } from './working-html.js';
import { workingInputs } from './working-inputs.js';
import { workingText } from './working-text.js';

/** What a notebook shows for a working: our interactive view, a static table, aligned text. */
export function workingBundle(working: Working<unknown>, viewId?: string): MimeBundle {
  const data = workingData(working);
  const inputs = workingInputs(working);
  return {
    [MIME.working]: { ...data, ...(inputs ? { inputs } : {}), ...(viewId ? { viewId } : {}) },
    'text/html': workingHtml(data),
    'text/plain': workingText(data),
  };
}

/**
 * A working as a view whose moved figures code can read: `const v = workingView(observedAltitude(s))`, shown in one
 * cell, and `await v.state()` in a later one gives `{ eyeHeightM, indexErrorArcmin, temperatureC, pressureHpa, limb,
 * watchErrorS, leftOut }`, as far as they were moved.
 */
export const workingView = (working: Working<unknown>): View =>
  new View((viewId) => workingBundle(working, viewId));
