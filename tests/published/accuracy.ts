/**
 * `npm run accuracy`: runs every check against the outside and prints the accuracy table; `-- --brief` merges sources,
 * `-- --json` gives the figures.
 */
import 'cocked-hat';
import { asJson, figure, give, say } from '../bench/report/figures.mjs';
import { merged, report, runCheck, type Check, type Outcome } from './compare.js';
import { reductionChecks } from './reduction.checks.js';
import { riseSetChecks } from './rise-set.checks.js';
import { correctionChecks } from './corrections.checks.js';
import { skyChecks } from './sky.checks.js';
import { liveSkyChecks } from './sky-live.checks.js';
import { printedSkyChecks } from './sky-printed.checks.js';
import { seenSkyChecks } from './sky-seen.checks.js';
import { skyViewChecks } from './sky-view.checks.js';
import { timeChecks } from './time.checks.js';
import { variationChecks } from './variation.checks.js';

/** A group's checks are made lazily: some run Python. Add a part's checks here and in its own *.test.ts. */
const GROUPS: readonly (() => readonly Check[])[] = [
  skyChecks,
  liveSkyChecks,
  printedSkyChecks,
  seenSkyChecks,
  skyViewChecks,
  timeChecks,
  correctionChecks,
  reductionChecks,
  riseSetChecks,
  variationChecks,
];

const outcomes = GROUPS.flatMap((checks) => checks().map(runCheck));
if (!asJson) say(report(process.argv.includes('--brief') ? merged(outcomes) : outcomes));
const failed = outcomes.filter((o) => o.failures.length > 0);
for (const o of failed)
  console.error(`${o.check.subject} ${o.check.quantity}: ${o.failures.join('; ')}`);
const count = outcomes.reduce((sum, o) => sum + o.count, 0);
say(`${outcomes.length} checks, ${count} comparisons, ${failed.length} failed`);
give(outcomes.map(figureOf));
process.exitCode = failed.length > 0 ? 1 : 0;

function figureOf({ check, worst, count }: Outcome) {
  const { group, subject, quantity, unit, tolerance, source } = check;
  const name = [group, subject, quantity, source].join(' | ');
  const about = { group, subject, quantity, source, comparisons: count };
  return figure({ name, value: worst, unit, target: { most: tolerance }, about });
}
