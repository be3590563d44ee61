import { hasTag, textOf, type Cell } from '../../kernel/runner/notebook.js';

/** nbgrader's public cell metadata, schema 3. */
export interface GraderMetadata {
  readonly schema_version: number;
  readonly grade_id: string;
  readonly grade: boolean;
  readonly solution: boolean;
  readonly locked: boolean;
  readonly task?: boolean;
  readonly points?: number;
}

/**
 * What a cell is for. `answer`: the student writes here; `check`: earns marks; `given`: may not be changed;
 * `name`: holds the student's name; `teacher`: not in a student edition; `free`: anything else.
 */
export type Role = 'answer' | 'check' | 'given' | 'name' | 'teacher' | 'free';

/** The nbgrader metadata of a cell, if it has any that can be read. */
export function graderOf(cell: Cell): GraderMetadata | undefined {
  const found = cell.metadata?.['nbgrader'] as Partial<GraderMetadata> | undefined;
  if (typeof found !== 'object' || found === null || typeof found.grade_id !== 'string')
    return undefined;
  return {
    schema_version: Number(found.schema_version ?? 3),
    grade_id: found.grade_id,
    grade: found.grade === true,
    solution: found.solution === true,
    locked: found.locked === true,
    ...(typeof found.task === 'boolean' ? { task: found.task } : {}),
    ...(typeof found.points === 'number' ? { points: found.points } : {}),
  };
}

/** Keeps a student's cell known as the answer once its solution marks are taken out. */
export const ANSWER_TAG = 'answer';
const SOLUTION_MARK = /\bBEGIN SOLUTION\b/;

export function roleOf(cell: Cell): Role {
  if (hasTag(cell, 'teacher')) return 'teacher';
  if (hasTag(cell, 'student')) return 'name';
  const grader = graderOf(cell);
  if (grader?.solution || hasTag(cell, ANSWER_TAG)) return 'answer';
  if (SOLUTION_MARK.test(textOf(cell.source))) return 'answer';
  if (grader?.grade) return 'check';
  if (grader?.locked) return 'given';
  return 'free';
}

/** Whether the author collapsed the cell's source, as JupyterLab notes it. */
export function isFolded(cell: Cell): boolean {
  const jupyter = cell.metadata?.['jupyter'] as { source_hidden?: unknown } | undefined;
  return typeof jupyter === 'object' && jupyter !== null && jupyter.source_hidden === true;
}
