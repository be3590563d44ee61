import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { editionName, readNotebookFile } from '../edition.js';
import { editionFacts, studentEdition } from '../source/index.js';
import { answeredBy } from './answered.js';
import { Marker } from './marker.js';
import { classSlips, type LessonMarks, type MarkedFile } from './marks-table.js';
import { readReturned } from './returned.js';

/** How a folder is worked through. */
export interface MarkingRun {
  /** How many students' cells run side by side. */
  readonly parallel?: number;
  /** Told after each file. */
  readonly tell?: () => void;
}

/** Marks these files of a folder with one notebook. A file that cannot be marked stays in, with the reason. */
export async function markLesson(
  notebook: string,
  returned: string,
  files: readonly string[],
  { parallel = Math.max(2, os.availableParallelism()), tell }: MarkingRun,
): Promise<LessonMarks> {
  const name = editionName(notebook);
  const source = readNotebookFile(notebook);
  const { version } = editionFacts(studentEdition(source).notebook, { kind: 'student', name });
  const empty = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-mark-'));
  const marker = new Marker(source, empty);
  const marked: MarkedFile[] = [];
  let turn: Promise<unknown> = Promise.resolve();

  const markOne = async (file: string, index: number): Promise<void> => {
    try {
      const handedIn = readReturned(returned, file, source, name);
      const answered = await answeredBy(handedIn, empty);
      // One marker serves all, one after the other.
      const result = turn.then(() => marker.mark(answered));
      turn = result.catch(() => {});
      const { edition } = handedIn;
      marked[index] = { file, ...(await result), ...(edition === undefined ? {} : { edition }) };
    } catch (error) {
      marked[index] = { file, student: '', questions: [], remarks: [(error as Error).message] };
    }
    tell?.();
  };
  try {
    await marker.prepare();
    await inParallel(files, parallel, markOne);
  } finally {
    marker.end();
    fs.rmSync(empty, { recursive: true, force: true });
  }
  return { name, version, outOf: marker.outOf, files: marked, slips: classSlips(marked) };
}

async function inParallel<T>(
  items: readonly T[],
  width: number,
  work: (item: T, index: number) => Promise<void>,
) {
  let next = 0;
  const worker = async (): Promise<void> => {
    for (let i = next++; i < items.length; i = next++) await work(items[i] as T, i);
  };
  await Promise.all(Array.from({ length: width }, worker));
}
