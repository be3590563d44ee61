import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { carried, pageCells } from '../page/page-cells.js';
import { runCells } from '../sandbox/index.js';
import { dataChecksums, libraryVersion } from '../source/index.js';
import type { EditionFacts, PageOutput } from '../client/page-data.js';
import { compareOutputs, type Difference } from './compare.js';
import { notebookOf, readEdition } from './read-edition.js';

/** What a new run of an edition brought. */
export interface Reproduction {
  readonly edition: EditionFacts;
  /** Numbers that were compared. */
  readonly numbers: number;
  readonly cells: number;
  readonly differences: readonly Difference[];
  /** What is otherwise than when it was published, in whole sentences: library, data. */
  readonly changes: readonly string[];
  /** No difference at all. */
  readonly same: boolean;
}

/**
 * Runs a published page or notebook again, with the library and data that are here, and compares every number.
 * @throws PublishError when the file is no edition
 */
export async function reproduce(file: string): Promise<Reproduction> {
  const data = readEdition(file);
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-again-'));
  try {
    const { notebook } = await runCells(notebookOf(data), { folder, goOn: true });
    const now = new Map(pageCells(notebook).map((cell) => [cell.id, cell.outputs]));
    const code = data.cells.filter((cell) => cell.kind === 'code');
    // A page has not all forms of a view; a notebook has.
    const forms = file.endsWith('.ipynb') ? (outputs: readonly PageOutput[]) => outputs : carried;
    const found = code.map((cell) =>
      compareOutputs(cell.id, forms(cell.outputs), forms(now.get(cell.id) ?? [])),
    );
    const differences = found.flatMap((f) => f.differences);
    return {
      edition: data.edition,
      numbers: found.reduce((sum, f) => sum + f.numbers, 0),
      cells: code.length,
      differences,
      changes: changesSince(data.edition),
      same: differences.length === 0,
    };
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

function changesSince({ library, data }: EditionFacts): string[] {
  const here = { library: libraryVersion(), data: dataChecksums() };
  const changed = Object.entries(data ?? {}).filter(([file, sum]) => here.data[file] !== sum);
  return [
    ...(library === here.library
      ? []
      : [`It was published with version ${library} of the library; this is ${here.library}.`]),
    ...changed.map(([file]) => `The data file ${file} is not the one it was published with.`),
  ];
}
