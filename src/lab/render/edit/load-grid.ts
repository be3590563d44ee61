import type * as grid from './grid.js';

export type GridLibrary = typeof grid;

let loading: Promise<GridLibrary> | undefined;

/** The grid library, bundled with us; fetched from our own folder when the first log is edited. */
export function loadGrid(): Promise<GridLibrary> {
  return (loading ??= import('./grid.js'));
}
