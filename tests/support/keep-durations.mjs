/**
 * `npm run durations`: after a whole `npm test`, writes down how long each long test file took, so that the next run on a fresh
 * clone can start the longest first (longest-first.ts).
 */
import fs from 'node:fs';
import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '..', '..');
const LEAST_SECONDS = 5;

const { testResults } = JSON.parse(
  fs.readFileSync(path.join(ROOT, '.cache', 'vitest.json'), 'utf8'),
);
const file = path.join(import.meta.dirname, 'durations.json');
const kept = JSON.parse(fs.readFileSync(file, 'utf8'));
for (const { name, startTime, endTime } of testResults)
  kept[path.relative(ROOT, name).split(path.sep).join('/')] = Math.round(
    (endTime - startTime) / 1000,
  );
const long = Object.entries(kept)
  .filter(([name, seconds]) => seconds >= LEAST_SECONDS && fs.existsSync(path.join(ROOT, name)))
  .sort(([, a], [, b]) => b - a);
fs.writeFileSync(file, `${JSON.stringify(Object.fromEntries(long), null, 2)}\n`);
console.log(`${long.length} files of ${LEAST_SECONDS} s or more are written down.`);
