/** The sight a reader points at or has chosen, shared by all views of a page: `Altair 2027-05-14 05:24:00 UTC`. */
let chosen: string | undefined;
const listeners = new Set<(key: string | undefined) => void>();

export const chosenSight = (): string | undefined => chosen;

export function chooseSight(key: string | undefined): void {
  if (key === chosen) return;
  chosen = key;
  for (const listener of listeners) listener(key);
}

/** Calls back when the choice changes; returns what ends that. */
export function onChosenSight(listener: (key: string | undefined) => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
