import fs from 'node:fs';
import path from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const ROOT = path.resolve(import.meta.dirname, '..', '..');

/** Seconds that long files took when they were last written down (`npm run durations`, after a whole `npm test`). */
const kept = JSON.parse(
  fs.readFileSync(path.join(import.meta.dirname, 'durations.json'), 'utf8'),
) as Readonly<Record<string, number>>;

/** A file that is not in the list takes less than this, or is new. */
const UNKNOWN_SECONDS = 5;

const secondsOf = ({ moduleId }: TestSpecification): number =>
  kept[path.relative(ROOT, moduleId).split(path.sep).join('/')] ?? UNKNOWN_SECONDS;

/**
 * Starts the longest files first, so that no process is left with a long one at the end while the other has nothing to do.
 * vitest does so by its own cache, which a fresh clone lacks.
 */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).sort(
      (a, b) =>
        Number(a.project.config.isolate === false) - Number(b.project.config.isolate === false) ||
        secondsOf(b) - secondsOf(a),
    );
  }
}
