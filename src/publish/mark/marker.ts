import { textOf, type Notebook } from '../../kernel/runner/notebook.js';
import { PublishError } from '../publish-error.js';
import { Sandbox } from '../sandbox/index.js';
import { roleOf, teacherEdition } from '../source/index.js';
import type { Answered } from './answered.js';

/** What a check said of one question, as `Feedback.toJSON` writes it. */
export interface CheckedQuestion {
  readonly question: string;
  readonly title?: string;
  readonly code?: string;
  readonly marks: number;
  readonly outOf: number;
  readonly firstWrong?: string;
  readonly lines: readonly CheckedLine[];
}
export interface CheckedLine {
  readonly id: string;
  readonly title?: string;
  readonly standing: string;
  readonly marks: number;
  readonly outOf: number;
  readonly written?: string;
  readonly slip?: string;
  readonly sentences: readonly string[];
}

export interface Marked {
  readonly student: string;
  readonly questions: readonly CheckedQuestion[];
  /** Why something could not be marked, in whole sentences. */
  readonly remarks: readonly string[];
}

const NAME = /^[\p{ID_Start}$_][\p{ID_Continue}$]*$/u;
const MOST_NAME = 200;

/** Marks answers with the teacher's own cells, in a process in which no student's code runs. */
export class Marker {
  readonly #sandbox: Sandbox;
  readonly #source: Notebook;
  /** Names that each cell of the student should make, as the teacher's solution does. */
  #names: ReadonlyMap<string, readonly string[]> | undefined;
  /** The name that stands in the teacher's notebook. */
  #example = '';
  #outOf = 0;

  constructor(
    source: Notebook,
    private readonly folder: string,
  ) {
    this.#source = teacherEdition(source);
    this.#sandbox = new Sandbox({ folder, marks: true });
  }

  /** Runs the teacher's own solution once. @throws PublishError when it fails, or nothing in it is checked */
  async prepare(): Promise<void> {
    await this.#expectedNames();
  }
  /** Marks that the checks of the notebook can give; known once it is prepared. */
  get outOf(): number {
    return this.#outOf;
  }

  async mark(answered: Answered): Promise<Marked> {
    const names = await this.#expectedNames();
    const questions: CheckedQuestion[] = [];
    const remarks = failed(answered.failures);
    let student = '';
    const code = this.#source.cells.filter((cell) => cell.cell_type === 'code');
    for (const [i, cell] of code.entries()) {
      const role = roleOf(cell);
      const id = cell.id ?? '';
      if (role === 'teacher') continue;
      const given = answered.values.get(id) ?? {};
      const source =
        role === 'answer' || role === 'name'
          ? assignments(names.get(id) ?? [], given)
          : textOf(cell.source);
      if (role === 'name') {
        student = studentIn(given);
        if (student === '') {
          remarks.push('The name is missing, so there are no numbers to mark with.');
          break;
        }
        if (student === this.#example)
          remarks.push(`The name was left as '${student}': the numbers are those of that name.`);
      }
      const result = await this.#sandbox.run(id, `In[${id}]`, source);
      questions.push(...result.checked.map((c) => c as CheckedQuestion));
      const { outcome } = result;
      // A check that is not passed ends in an error, and is no fault of the notebook.
      if (outcome.status === 'error' && result.checked.length === 0)
        remarks.push(
          `The marker's code cell ${i + 1} failed: ${outcome.error.ename}: ${outcome.error.evalue}.`,
        );
    }
    return { student, questions, remarks };
  }
  end(): void {
    this.#sandbox.end();
  }

  async #expectedNames(): Promise<ReadonlyMap<string, readonly string[]>> {
    if (this.#names) return this.#names;
    const sandbox = new Sandbox({ folder: this.folder, marks: true });
    const names = new Map<string, readonly string[]>();
    let checked = 0;
    try {
      for (const cell of this.#source.cells) {
        const role = roleOf(cell);
        if (cell.cell_type !== 'code') continue;
        const result = await sandbox.run(cell.id ?? '', 'In[names]', textOf(cell.source), true);
        if (role !== 'answer' && role !== 'teacher') {
          checked += result.checked.length;
          for (const c of result.checked) this.#outOf += (c as CheckedQuestion).outOf;
        }
        if (role === 'check') continue;
        if (role === 'name') this.#example = studentIn(result.values);
        if (result.outcome.status === 'error' && result.checked.length === 0)
          throw new PublishError(
            `The notebook's own cell '${cell.id ?? ''}' failed: ${result.outcome.error.evalue}`,
            'make the notebook run from top to bottom: cocked-hat run NOTEBOOK',
          );
        names.set(
          cell.id ?? '',
          Object.keys(result.values).filter((name) => NAME.test(name)),
        );
      }
    } finally {
      sandbox.end();
    }
    if (checked === 0)
      throw new PublishError(
        'No cell of the notebook checks an answer, so there is nothing to mark',
        'put check(q, answer) into a cell of its own, below the cell in which the student writes',
      );
    this.#names = names;
    return names;
  }
}

/** The first cell that failed, with its reason: those below it mostly fail because of it. */
function failed(failures: Answered['failures']): string[] {
  const [first, ...more] = failures;
  if (first === undefined) return [];
  const others =
    more.length === 0 ? '' : ` So did ${more.length} cell${more.length === 1 ? '' : 's'} below it.`;
  return [`Code cell ${first.cell} failed: ${first.message}.${others}`];
}

/** Code that gives the marker's session the student's values as plain data; a value that is missing is no answer. */
function assignments(names: readonly string[], given: Readonly<Record<string, string>>): string {
  const lines = names.map((name) => {
    const json = Object.hasOwn(given, name) ? (given[name] ?? '{}') : '{}';
    return `var ${name} = fromJson(JSON.parse(${JSON.stringify(json)}));`;
  });
  return `var { answerFromJson: fromJson } = await import('cocked-hat');\n${lines.join('\n')}`;
}

/** The one text that the cell of the name made. */
function studentIn(given: Readonly<Record<string, string>>): string {
  for (const json of Object.values(given)) {
    const value = JSON.parse(json) as unknown;
    if (typeof value === 'string') return value.trim().slice(0, MOST_NAME);
  }
  return '';
}
