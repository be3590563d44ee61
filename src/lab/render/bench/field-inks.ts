import { colours } from '../colours.js';
import type { FieldInks } from './draw-field.js';

/** The host's colours for the telescope's field, as the theme has them now. */
export function inksOf(canvas: HTMLCanvasElement): FieldInks {
  const c = colours(canvas);
  const style = getComputedStyle(canvas);
  const isLight = style.colorScheme !== 'dark';
  return {
    paper: c.paper,
    sky: style.getPropertyValue('--ch-panel').trim(),
    sea: c.region,
    ink: c.ink,
    body: c.disc,
    bright: isLight ? c.paper : c.ink,
  };
}
