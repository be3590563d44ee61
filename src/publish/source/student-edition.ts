import { hasTag, linesOf, textOf, type Cell, type Notebook } from '../../kernel/runner/notebook.js';
import { ANSWER_TAG, graderOf, isFolded, roleOf } from './roles.js';
import { splitSolution, STUB } from './solution-marks.js';

/** A student edition and what was taken out of it. */
export interface StudentEdition {
  readonly notebook: Notebook;
  /** Lines of solutions, teacher's cells and hidden tests, as they stood. */
  readonly removed: readonly string[];
}

/**
 * The notebook as a student gets it: solutions, hidden tests, teacher's cells, outputs and private metadata are
 * taken out, not hidden.
 * @throws RangeError naming the cell where solution marks do not pair
 */
export function studentEdition(source: Notebook): StudentEdition {
  const removed: string[] = [];
  const cells = source.cells.flatMap((cell, i): Cell[] => {
    const text = textOf(cell.source);
    const role = roleOf(cell);
    // JupyterLab leaves an empty cell below the last one.
    if (text.trim() === '' && role === 'free') return [];
    if (role === 'teacher') {
      removed.push(...text.split('\n'));
      return [];
    }
    const split = splitOf(text, i);
    const bare = role === 'answer' && split.solution.length === 0 && graderOf(cell)?.solution;
    removed.push(...(bare ? text.split('\n') : split.solution));
    const shown = bare ? (cell.cell_type === 'code' ? STUB : '') : split.shown;
    return [cleanCell(role === 'answer' ? tagged(cell) : cell, shown, i)];
  });
  return {
    notebook: { nbformat: 4, nbformat_minor: 5, metadata: publicMetadata(source.metadata), cells },
    removed: removed.filter((line) => line.trim() !== ''),
  };
}

/** The notebook as a teacher gets it: all of it, without outputs. */
export function teacherEdition(source: Notebook): Notebook {
  const cells = source.cells
    .map((cell, i) => cleanCell(cell, textOf(cell.source), i))
    .filter((cell) => textOf(cell.source).trim() !== '' || roleOf(cell) !== 'free');
  return { nbformat: 4, nbformat_minor: 5, metadata: publicMetadata(source.metadata), cells };
}

/** Without its marks nothing else would tell that this is the cell to answer in. */
function tagged(cell: Cell): Cell {
  if (graderOf(cell)?.solution || hasTag(cell, ANSWER_TAG)) return cell;
  const tags = [...(cell.metadata?.tags ?? []), ANSWER_TAG];
  return { ...cell, metadata: { ...cell.metadata, tags } };
}

function splitOf(text: string, index: number) {
  try {
    return splitSolution(text);
  } catch (error) {
    if (error instanceof RangeError) throw new RangeError(`cell ${index + 1}, ${error.message}`);
    throw error;
  }
}

function cleanCell(cell: Cell, text: string, index: number): Cell {
  const tags = cell.metadata?.tags;
  const nbgrader = graderOf(cell);
  const clean: Cell = {
    id: idOf(cell, index),
    cell_type: cell.cell_type,
    metadata: {
      ...(tags ? { tags: [...tags] } : {}),
      ...(isFolded(cell) ? { jupyter: { source_hidden: true } } : {}),
      ...(nbgrader ? { nbgrader } : {}),
    },
    source: linesOf(text),
  };
  if (cell.cell_type === 'code') return { ...clean, execution_count: null, outputs: [] };
  return cell.attachments ? { ...clean, attachments: cell.attachments } : clean;
}

const ID = /^[a-zA-Z0-9-_]{1,64}$/;
/** Answers are kept by cell, so that every cell needs a name that lasts: nbgrader's, its own, or its place. */
function idOf(cell: Cell, index: number): string {
  const name = graderOf(cell)?.grade_id ?? cell.id;
  return name !== undefined && ID.test(name) ? name : `cell-${index + 1}`;
}

/** Metadata that may go out: the kernel's name and what the author says of the notebook. */
function publicMetadata(metadata: Record<string, unknown>): Record<string, unknown> {
  const { kernelspec, language_info, cocked_hat } = metadata;
  return {
    ...(cocked_hat ? { cocked_hat } : {}),
    kernelspec: kernelspec ?? {
      display_name: 'TypeScript · Cocked Hat',
      language: 'typescript',
      name: 'cocked-hat',
    },
    language_info: language_info ?? { name: 'typescript', file_extension: '.ts' },
  };
}
