import { Sandbox } from '../sandbox/index.js';
import { literalValues } from './literal-cell.js';
import type { Returned } from './returned.js';

/** What the cells of a student made: by cell, name to JSON text. */
export interface Answered {
  readonly values: ReadonlyMap<string, Readonly<Record<string, string>>>;
  /** Code cells of the student that failed, by their number, and how. */
  readonly failures: readonly { readonly cell: number; readonly message: string }[];
}

const LIMITS = { timeoutMs: 10_000, processorSeconds: 120 };

/** What a student wrote, where every cell of theirs only writes figures down: then nothing has to be run. */
function readLiterally({ cells }: Returned): Answered | undefined {
  const values = new Map<string, Readonly<Record<string, string>>>();
  for (const { id, role, source } of cells) {
    if (role !== 'answer' && role !== 'name') continue;
    const found = literalValues(source);
    if (!found) return undefined;
    values.set(id, found);
  }
  return { values, failures: [] };
}

/** Figures that are only written down are read; anything that computes is run, apart and within limits. */
export async function answeredBy(returned: Returned, folder: string): Promise<Answered> {
  return readLiterally(returned) ?? runReturned(returned, folder);
}

/**
 * Runs a student's cells in a process of their own, with limits, in an empty folder; nothing of the marking happens
 * there, so that no cell can mark itself. Checks are left out: they are made again by the marker.
 */
async function runReturned(returned: Returned, folder: string): Promise<Answered> {
  const values = new Map<string, Readonly<Record<string, string>>>();
  const failures: { cell: number; message: string }[] = [];
  const sandbox = new Sandbox({ folder, ...LIMITS });
  try {
    for (const [i, { id, role, source }] of returned.cells.entries()) {
      if (role === 'check' || source.trim() === '') continue;
      const keep = role === 'answer' || role === 'name';
      const result = await sandbox.run(id, `In[${id}]`, source, keep);
      if (keep) values.set(id, result.values);
      if (result.outcome.status === 'error') {
        const { ename, evalue } = result.outcome.error;
        failures.push({ cell: i + 1, message: `${ename}: ${evalue}` });
        if (ename === 'Stopped') break;
      }
    }
  } finally {
    sandbox.end();
  }
  return { values, failures };
}
