/** `npm run slips`: which blunder of a sight is named first. */
import { pathToFileURL } from 'node:url';
import { bundle } from './bundle.mjs';
import { wordsGiven } from '../../src/cli/bootstrap/words-given.mjs';
import { words } from './report/figures.mjs';

const USAGE = `npm run slips [-- SIGHTS]

Simulates single blunders at a known place, 500 sights of each unless told, and prints what the engine names first. The exit
code is 1 when fewer than 90 % of the slips that can be told, or 99 % of the clean sights, are named right.`;
const [asked = '500'] = wordsGiven(USAGE, {}, 'any', words).positionals;
const wanted = Number(asked);
if (!(wanted > 0)) {
  console.error(`the number of sights must be a positive number, not ${asked}`);
  process.exit(2);
}
const { printSlips } = await import(pathToFileURL(await bundle('slips-report.ts')).href);
process.exitCode = printSlips(wanted) ? 0 : 1;
