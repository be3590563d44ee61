import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { editionName, readNotebookFile } from '../edition.js';
import { editionFacts, studentEdition } from '../source/index.js';
import { writeEdition } from '../write/atomic.js';
import { answeredBy } from './answered.js';
import { Marker } from './marker.js';
import {
  classSlips,
  feedbackText,
  marksCsv,
  slipsCsv,
  type ClassSlip,
  type MarkedFile,
} from './marks-table.js';
import { readReturned, returnedFiles } from './returned.js';

export interface MarkOptions {
  readonly out: string;
  /** How many students' cells run side by side. */
  readonly parallel?: number;
  readonly tell?: (done: number, of: number) => void;
}

export interface ClassMarks {
  readonly folder: string;
  readonly files: readonly MarkedFile[];
  readonly slips: readonly ClassSlip[];
}

/**
 * Marks a folder of returned answers with the teacher's notebook, and writes `marks.csv`, `slips.csv` and a text of
 * feedback for each file. A file that cannot be marked stands in the table with the reason; none is left out.
 */
export async function markClass(
  notebook: string,
  returned: string,
  options: MarkOptions,
): Promise<ClassMarks> {
  const name = editionName(notebook);
  const source = readNotebookFile(notebook);
  const { version } = editionFacts(studentEdition(source).notebook, { kind: 'student', name });
  const files = returnedFiles(returned);
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
    options.tell?.(marked.filter(Boolean).length, files.length);
  };
  try {
    await marker.prepare();
    await inParallel(files, options.parallel ?? Math.max(2, os.availableParallelism()), markOne);
  } finally {
    marker.end();
    fs.rmSync(empty, { recursive: true, force: true });
  }
  const slips = classSlips(marked);
  writeEdition(options.out, [
    { name: 'marks.csv', bytes: Buffer.from(marksCsv(marked, version)) },
    { name: 'slips.csv', bytes: Buffer.from(slipsCsv(slips)) },
    ...marked.map((m, i) => ({
      name: `feedback/${fileName(m.file, i)}`,
      bytes: Buffer.from(feedbackText(m)),
    })),
  ]);
  return { folder: path.resolve(options.out), files: marked, slips };
}

/** A plain name from whatever the returned file was called. */
const fileName = (file: string, index: number): string =>
  `${String(index + 1).padStart(3, '0')}-${file
    .replace(/\.\w+$/, '')
    .replace(/[^\p{L}\p{N}._-]+/gu, '_')
    .slice(0, 80)}.txt`;

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
