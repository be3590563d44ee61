import type { EditionFacts } from './page-data.js';

/** What a student hands in: the text of every cell that was changed. */
export interface AnswersFile {
  readonly format: 'cocked-hat answers';
  readonly formatVersion: 1;
  readonly notebook: string;
  /** The version of the edition that was answered. */
  readonly edition: string;
  readonly library: string;
  /** Cell name to its text. */
  readonly cells: Readonly<Record<string, string>>;
  /** Cell name to the text that was changed, as the edition had it: tells a later edition what it has corrected. */
  readonly originals?: Readonly<Record<string, string>>;
}

export class AnswersFileError extends Error {
  override readonly name = 'AnswersFileError';
}

const FORMAT = 'cocked-hat answers';
const MOST_BYTES = 2_000_000;
const MOST_CELLS = 500;
const MOST_CELL = 100_000;
const CELL_NAME = /^[a-zA-Z0-9-_]{1,64}$/;

export function answersText(
  facts: EditionFacts,
  cells: ReadonlyMap<string, string>,
  originals: ReadonlyMap<string, string> = new Map(),
): string {
  const file: AnswersFile = {
    format: FORMAT,
    formatVersion: 1,
    notebook: facts.notebook,
    edition: facts.version,
    library: facts.library,
    cells: Object.fromEntries(cells),
    ...(originals.size > 0 ? { originals: Object.fromEntries(originals) } : {}),
  };
  return `${JSON.stringify(file, null, 1)}\n`;
}

/** Reads an answers file that may come from anyone. @throws AnswersFileError saying what is wrong with it */
export function readAnswers(text: string): AnswersFile {
  const refuse = (why: string): never => {
    throw new AnswersFileError(`This is not a file of answers: ${why}.`);
  };
  if (text.length > MOST_BYTES) refuse(`it is longer than ${MOST_BYTES / 1e6} MB`);
  let value: Partial<Record<keyof AnswersFile, unknown>>;
  try {
    value = JSON.parse(text) as typeof value;
  } catch (error) {
    return refuse(
      `it is damaged or cut short (not JSON: ${(error as Error).message.slice(0, 100)})`,
    );
  }
  if (typeof value !== 'object' || value === null || value.format !== FORMAT)
    return refuse(`its format is not "${FORMAT}"`);
  if (value.formatVersion !== 1)
    refuse(`it has format version ${JSON.stringify(value.formatVersion)}, and 1 is known here`);
  const short = (key: 'notebook' | 'edition' | 'library'): string => {
    const part = value[key];
    return typeof part === 'string' && part.length <= 200
      ? part
      : refuse(`${key} is not a short text`);
  };
  const textsOf = (texts: unknown): Record<string, string> => {
    if (typeof texts !== 'object' || texts === null || Array.isArray(texts))
      return refuse('it has no cells');
    const entries = Object.entries(texts as Record<string, unknown>);
    if (entries.length > MOST_CELLS) refuse(`it has more than ${MOST_CELLS} cells`);
    for (const [name, source] of entries) {
      if (!CELL_NAME.test(name)) refuse(`'${name.slice(0, 60)}' cannot name a cell`);
      if (typeof source !== 'string') refuse(`cell '${name}' is not text`);
      else if (source.length > MOST_CELL)
        refuse(`cell '${name}' is longer than ${MOST_CELL} characters`);
    }
    return Object.fromEntries(entries) as Record<string, string>;
  };
  return {
    format: FORMAT,
    formatVersion: 1,
    notebook: short('notebook'),
    edition: short('edition'),
    library: short('library'),
    cells: textsOf(value.cells),
    ...(value.originals === undefined ? {} : { originals: textsOf(value.originals) }),
  };
}
