/** `npm test`: its own set-up, then every check there is; the last line counts the tests. */
import './require-node.mjs';
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { ensureChromium } from './chromium.mjs';
import { reportFailure } from './failure.mjs';
import { CACHE, ROOT } from './paths.mjs';
import { endChildren } from './process-tree.mjs';
import { say } from './progress.mjs';
import { setUp } from './setup.mjs';
import { onStopRequest } from './stop-request.mjs';
import { countTests } from './test-count.mjs';

const REPORT = path.join(CACHE, 'vitest.json');
const LOW = os.constants.priority.PRIORITY_BELOW_NORMAL;
const program = (...parts) => path.join(ROOT, 'node_modules', ...parts);

/** What is checked beside the tests; all of it, whatever the outcome. */
const CHECKS = [
  ['formatting (prettier)', program('prettier', 'bin', 'prettier.cjs'), '--check', '.'],
  ['style and import arrows (eslint)', program('eslint', 'bin', 'eslint.js'), '.'],
  ['types (tsc)', program('typescript', 'bin', 'tsc'), '--noEmit', '-p', 'tsconfig.json'],
  [
    'types of the core',
    program('typescript', 'bin', 'tsc'),
    '--noEmit',
    '-p',
    'tsconfig.core.json',
  ],
];

function runNode(script, args, stdio, priority = 0) {
  const child = spawn(process.execPath, [script, ...args], { cwd: ROOT, stdio });
  if (priority !== 0 && child.pid !== undefined) os.setPriority(child.pid, priority);
  const output = [];
  child.stdout?.on('data', (chunk) => output.push(chunk));
  child.stderr?.on('data', (chunk) => output.push(chunk));
  return new Promise((resolve) =>
    child.once('close', (code) => resolve({ code: code ?? 1, text: output.join('') })),
  );
}

/** Runs one check, with what the tests leave of the processor; returns its title if it failed. */
async function check([title, script, ...args]) {
  const since = Date.now();
  const { code, text } = await runNode(script, args, ['ignore', 'pipe', 'pipe'], LOW);
  const took = `${((Date.now() - since) / 1000).toFixed(1)} s`;
  say(code === 0 ? `  ${title}: good (${took})` : `  ${title}: FAILED (${took})\n${text}`);
  return code === 0 ? undefined : title;
}

/** Runs the checks one after another; returns the titles of those that failed. */
async function runChecks() {
  const failed = [];
  for (const one of CHECKS) failed.push(await check(one));
  return failed.filter(Boolean);
}

async function runTests(chromium, filters) {
  fs.rmSync(REPORT, { force: true });
  process.env.CHROMIUM = chromium;
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${REPORT}`];
  const args = ['run', ...reporters, ...filters];
  const { code } = await runNode(program('vitest', 'vitest.mjs'), args, [
    'ignore',
    'inherit',
    'inherit',
  ]);
  return { code, counts: countTests(REPORT) };
}

async function main(filters) {
  onStopRequest().then((reason) => {
    say(`\nStopped (${reason}).`);
    endChildren();
    process.exit(130);
  });
  say('Set-up');
  const chromium = await ensureChromium();
  const { installed, built } = await setUp({ forTests: true });
  if (!installed && built.length === 0) say('  everything is in place');
  say('Tests, and beside them the checks of form, style and types');
  const checks = runChecks();
  const { code, counts } = await runTests(chromium, filters);
  const failed = await checks;
  if (failed.length > 0) say(`\nChecks that failed, see above: ${failed.join('; ')}.`);
  process.exitCode = failed.length > 0 || code !== 0 || counts.passed === 0 ? 1 : 0;
  const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : '';
  // A check that failed counts as well: the last line must not sound better than the run was.
  say(`\n${counts.passed} passed, ${counts.failed + failed.length} failed${skipped}`);
}

try {
  await main(process.argv.slice(2));
} catch (error) {
  reportFailure(error);
  endChildren();
  say('\n0 passed, 1 failed');
}
process.exit();
