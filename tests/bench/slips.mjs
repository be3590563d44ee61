/**
 * `npm run slips [-- SIGHTS]`: simulates single blunders at a known place and prints what the engine names first. The exit
 * code is 1 when fewer than 90 % of the slips that can be told, or 99 % of the clean sights, are named right.
 */
import { pathToFileURL } from 'node:url';
import { bundle } from './bundle.mjs';
import { words } from './report/figures.mjs';

const wanted = Number(words[0] ?? 500);
if (!(wanted > 0)) {
  console.error(`the number of sights must be a positive number, not ${words[0]}`);
  process.exit(2);
}
const { printSlips } = await import(pathToFileURL(await bundle('slips-report.ts')).href);
process.exitCode = printSlips(wanted) ? 0 : 1;
