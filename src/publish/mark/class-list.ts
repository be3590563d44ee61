import { plainName } from '../../exercises/index.js';
import { scanCsv } from '../../log/csv/scan-csv.js';
import { PublishError } from '../publish-error.js';

/** A class as its teacher keeps it: the names in their order, and what else stands in their rows. */
export interface ClassList {
  /** Heads of the other columns, such as a group or an address. */
  readonly heads: readonly string[];
  readonly students: readonly { readonly name: string; readonly more: readonly string[] }[];
}

const NAME_HEADS = ['student', 'name'];
const REMEDY =
  "write one name a line, or a table whose first row names its columns, one of them 'student'";

/**
 * Reads a class list: one name a line, or a table (comma, semicolon or tab) with a column headed `student` or `name`,
 * whose other columns are kept as they are. @throws PublishError when it names nobody, or somebody twice
 */
export function readClassList(text: string, file: string): ClassList {
  const list = asTable(text.replace(/^\uFEFF/, ''));
  if (list.students.length === 0)
    throw new PublishError(`The class list ${file} names nobody`, REMEDY);
  const seen = new Set<string>();
  for (const { name } of list.students) {
    if (seen.has(plainName(name)))
      throw new PublishError(
        `The class list ${file} has '${name}' twice`,
        'give each student a name of their own, as they write it in their answers',
      );
    seen.add(plainName(name));
  }
  return list;
}

function asTable(text: string): ClassList {
  const lines = text.split(/\r?\n/).map((line) => line.trim());
  const first = lines.find((line) => line !== '') ?? '';
  const delimiter = [';', '\t', ','].find((mark) => nameColumn(first.split(mark)) >= 0);
  // Without a head each line is a name, whatever it holds: 'Lima, Ana'.
  if (delimiter === undefined)
    return {
      heads: [],
      students: lines.filter((name) => name !== '').map((name) => ({ name, more: [] })),
    };
  const [head = [], ...rows] = [...scanCsv(text, delimiter)].map(({ cells }) => cells);
  const at = nameColumn(head);
  const others = head.map((_, i) => i).filter((i) => i !== at && head[i] !== '');
  return {
    heads: others.map((i) => head[i] ?? ''),
    students: rows
      .map((row) => ({ name: row[at] ?? '', more: others.map((i) => row[i] ?? '') }))
      .filter(({ name }) => name !== ''),
  };
}

const nameColumn = (cells: readonly string[]): number =>
  cells.findIndex((cell) => NAME_HEADS.includes(cell.replace(/^"|"$/g, '').trim().toLowerCase()));
