/** `npm run accuracy`: runs every check against the outside and prints the accuracy table; `-- --brief` merges sources. */
import 'cocked-hat';
import { merged, report, runCheck, type Check } from './compare.js';
import { reductionChecks } from './reduction.checks.js';
import { riseSetChecks } from './rise-set.checks.js';
import { correctionChecks } from './corrections.checks.js';
import { skyChecks } from './sky.checks.js';
import { liveSkyChecks } from './sky-live.checks.js';
import { printedSkyChecks } from './sky-printed.checks.js';
import { seenSkyChecks } from './sky-seen.checks.js';
import { timeChecks } from './time.checks.js';
import { variationChecks } from './variation.checks.js';

/** A group's checks are made lazily: some run Python. Add a part's checks here and in its own *.test.ts. */
const GROUPS: readonly (() => readonly Check[])[] = [
  skyChecks,
  liveSkyChecks,
  printedSkyChecks,
  seenSkyChecks,
  timeChecks,
  correctionChecks,
  reductionChecks,
  riseSetChecks,
  variationChecks,
];

const outcomes = GROUPS.flatMap((checks) => checks().map(runCheck));
console.log(report(process.argv.includes('--brief') ? merged(outcomes) : outcomes));
const failed = outcomes.filter((o) => o.failures.length > 0);
for (const o of failed)
  console.error(`${o.check.subject} ${o.check.quantity}: ${o.failures.join('; ')}`);
const count = outcomes.reduce((sum, o) => sum + o.count, 0);
console.log(`${outcomes.length} checks, ${count} comparisons, ${failed.length} failed`);
process.exitCode = failed.length > 0 ? 1 : 0;
