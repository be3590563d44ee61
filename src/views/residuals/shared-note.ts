import type { AltitudeObservation } from '../../core/line/index.js';

/** What a reader must know where residuals and standardised residuals stand side by side. */
export const SHARED_NOTE =
  'A residual holds whatever error all the sights share (index, dip, watch). The standardised figure leaves out what such an error would explain, so the two may differ, even in sign.';

/** The note, where sights check one another and at least two of them name the same cause of error. */
export function sharedErrorNote(
  observations: readonly Pick<AltitudeObservation, 'causes'>[],
): string | undefined {
  const keys = observations.flatMap(({ causes }) => [
    ...new Set(causes.flatMap(({ sharedKey }) => sharedKey ?? [])),
  ]);
  const isChecked = observations.length > 2;
  return isChecked && new Set(keys).size < keys.length ? SHARED_NOTE : undefined;
}
