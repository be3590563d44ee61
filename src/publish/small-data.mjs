/** Data files as a published page carries them: without what only people read, and long tables as steps from entry to entry. */
import fs from 'node:fs';
import path from 'node:path';

/** What the library reads of a file at run time, or with its entries as steps: `scale` makes them whole numbers. */
const READ = {
  'nav-stars.json': { keep: ['epochJdTT', 'stars', 'binaries'], steps: {} },
  'time-scales.json': { keep: null, steps: { taiMinusUt1Ms: 1, deltaTS: 1000 } },
};

/** The text of an expression that gives the list again, to the last digit. */
function asSteps(list, scale) {
  const whole = list.map((value) => Math.round(value * scale));
  if (whole.some((value, i) => value / scale !== list[i]))
    throw new Error(`a table has more decimals than ${scale} makes whole`);
  const steps = whole.map((value, i) => value - (whole[i - 1] ?? 0));
  return `sums(${JSON.stringify(steps)}, ${scale})`;
}

/** The module in place of a data file. @param {string} file its path */
export function smallData(file) {
  const all = JSON.parse(fs.readFileSync(file, 'utf8'));
  const { keep, steps } = READ[path.basename(file)];
  const fields = (keep ?? Object.keys(all)).map((key) => {
    const text = key in steps ? asSteps(all[key], steps[key]) : JSON.stringify(all[key]);
    return `${JSON.stringify(key)}: ${text}`;
  });
  return `const sums = (steps, scale) => { let sum = 0; return steps.map((step) => (sum += step) / scale); };
export default { ${fields.join(', ')} };`;
}

/** For esbuild's `onLoad`. */
export const SMALL_DATA = /data[\\/](?:nav-stars|time-scales)\.json$/;
