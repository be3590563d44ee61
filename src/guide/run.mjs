/** `npm run guide`: makes the guide with the reference of the library; fails when a public name is not documented. */
import { DIST, ROOT, shown } from '../cli/bootstrap/paths.mjs';
import { wordsGiven } from '../cli/bootstrap/words-given.mjs';
import { buildGuide } from './build.mjs';
import { buildReference } from './reference.mjs';

wordsGiven(
  `npm run guide

Makes the guide with the reference of the library; fails when a public name is not documented. npx cocked-hat guide opens it.`,
);
const places = { root: ROOT, dist: DIST };
const complaints = await buildReference(places);
await buildGuide(places);
for (const complaint of complaints) console.error(complaint);
console.log(`${shown(DIST)}/guide/index.html is made; cocked-hat guide opens it.`);
process.exitCode = complaints.length > 0 ? 1 : 0;
