/**
 * The one shape in which every measurement gives its figures. A measurement prints for people; with `--json` it prints
 * nothing on the standard output but `{ "figures": […] }`, and what it says on the way goes to the standard error.
 */
import os from 'node:os';

/**
 * @typedef {object} Figure
 * @property {string} name what was measured, unique within its part
 * @property {number} value in `unit`
 * @property {string} unit
 * @property {string | null} peer what it was measured beside in the same run
 * @property {number | null} ratio ours to the peer's (or the peer's to ours where more is better, as `about.peer` says)
 * @property {{ most: number } | { least: number } | null} target limit in `unit`
 * @property {number} load load average over the last minute when it was measured; 0 where the system gives none
 * @property {Record<string, string | number>} [about] what a table wants to know besides
 */

export const asJson = process.argv.includes('--json');
/** The arguments without `--json`. */
export const words = process.argv.slice(2).filter((word) => word !== '--json');

/** @param {string} text a line for people */
export const say = (text) => (asJson ? console.error(text) : console.log(text));

/**
 * @param {Pick<Figure, 'name' | 'value' | 'unit' | 'about'> & Partial<Pick<Figure, 'peer' | 'ratio' | 'target'>>} given
 * @returns {Figure}
 */
export function figure({ name, value, unit, peer = null, ratio = null, target = null, about }) {
  const [load] = os.loadavg();
  const figure = { name, value: short(value), unit, peer, ratio: short(ratio), target };
  return { ...figure, load: Number(load.toFixed(1)), ...(about ? { about } : {}) };
}

/** Four significant digits: no table shows more, and kept figures stay easy to compare. */
const short = (n) =>
  typeof n === 'number' && Number.isFinite(n) ? Number(n.toPrecision(4)) : null;

/** Whether a figure keeps to its target. @param {Figure} figure */
export function isGood({ value, target }) {
  if (target === null) return true;
  if (value === null) return false;
  return 'most' in target ? value <= target.most : value >= target.least;
}

/** Gives the figures to whoever asked for them by `--json`. @param {readonly Figure[]} figures */
export function give(figures) {
  if (asJson) process.stdout.write(`${JSON.stringify({ figures })}\n`);
}
