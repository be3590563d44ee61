/** `npm run build`: makes dist/, leaving alone the parts whose sources have not changed. */
import './require-node.mjs';
import fs from 'node:fs';
import path from 'node:path';
import { reportFailure, SetupFailure } from './failure.mjs';
import { isMain } from './is-main.mjs';
import { alone } from './lock.mjs';
import { ensureNodePackages } from './node-packages.mjs';
import { DIST, ROOT } from './paths.mjs';
import { say, step } from './progress.mjs';
import { exists, staleParts, stampOf } from './stale-parts.mjs';
import { wordsGiven } from './words-given.mjs';

const USAGE = `npm run build [-- --all]

Makes dist/, leaving alone the parts whose sources have not changed.

  --all  makes every part anew`;

function asFailure(part, error) {
  if (error instanceof SetupFailure) return error;
  return new SetupFailure(`building the ${part.name}`, {
    details: String((error?.errors ? error.message : error?.stack) ?? error),
    remedy: 'mend the source named above, or, in an unchanged checkout, delete the folder dist',
  });
}

async function makePart(part, value) {
  stampOf(part).clear();
  try {
    await step(part.name, () => part.make({ root: ROOT, dist: DIST }));
  } catch (error) {
    throw asFailure(part, error);
  }
  if (!exists(part.product))
    throw new SetupFailure(`the build of the ${part.name} ended without making ${part.product}`);
  stampOf(part).set(value);
}

/** Builds what is stale, parts side by side; returns the names of what was built. */
export async function build({ all = false } = {}) {
  if (all) fs.rmSync(path.join(DIST, '.stamps'), { recursive: true, force: true });
  const stale = staleParts();
  fs.mkdirSync(DIST, { recursive: true });
  const outcomes = await Promise.allSettled(stale.map(({ part, value }) => makePart(part, value)));
  const failures = outcomes.filter((outcome) => outcome.status === 'rejected');
  for (const { reason } of failures.slice(1)) say(`\n${reason.toText()}\n`);
  if (failures.length > 0) throw failures[0].reason;
  return stale.map(({ part }) => part.name);
}

if (isMain(import.meta.url)) {
  const { values } = wordsGiven(USAGE, { all: { type: 'boolean', default: false } });
  try {
    await alone(async () => {
      await ensureNodePackages();
      const built = await build(values);
      say(built.length ? `Built: ${built.join(', ')}.` : 'Everything in dist/ is up to date.');
    });
  } catch (error) {
    reportFailure(error);
  }
}
