import path from 'node:path';
import { editionName } from '../edition.js';
import { PublishError } from '../publish-error.js';
import { writeEdition, type EditionFile } from '../write/atomic.js';
import { classCsv, classRows, type ClassRow } from './class-table.js';
import type { ClassList } from './class-list.js';
import { csvText } from './csv.js';
import { markLesson } from './mark-lesson.js';
import {
  feedbackText,
  marksCsv,
  slipsCsv,
  type ClassSlip,
  type LessonMarks,
  type MarkedFile,
} from './marks-table.js';
import { lessonAnswered, returnedFiles } from './returned.js';

export interface MarkOptions {
  readonly out: string;
  /** Who should hand in; makes a table of the class. */
  readonly list?: ClassList;
  /** How many students' cells run side by side. */
  readonly parallel?: number;
  readonly tell?: (done: number, of: number) => void;
}

export interface ClassMarks {
  readonly folder: string;
  readonly lessons: readonly LessonMarks[];
  /** All files of all lessons, and their slips, the commonest first. */
  readonly files: readonly MarkedFile[];
  readonly slips: readonly ClassSlip[];
  /** Files that answer none of the lessons, and why. */
  readonly strays: readonly { readonly file: string; readonly why: string }[];
  /** The class: with a list, or over several lessons. */
  readonly rows: readonly ClassRow[];
}

/**
 * Marks a folder of returned answers with the teacher's notebooks, and writes `marks.csv`, `slips.csv` and a text of
 * feedback for each file; of several lessons each into a folder of its own. With a class list, or several lessons,
 * `class.csv` has a row for each student. No file is left out: what cannot be marked stands in a table with the reason.
 */
export async function markClass(
  notebook: string | readonly string[],
  returned: string,
  options: MarkOptions,
): Promise<ClassMarks> {
  const notebooks = typeof notebook === 'string' ? [notebook] : notebook;
  const names = notebooks.map(editionName);
  refuseTwins(names);
  const all = returnedFiles(returned);
  const { byLesson, strays } = sorted(returned, all, names);
  let done = strays.length;
  const tell = () => options.tell?.(++done, all.length);
  const lessons: LessonMarks[] = [];
  for (const [i, file] of notebooks.entries())
    lessons.push(
      await markLesson(file, returned, byLesson[i] ?? [], {
        tell,
        ...(options.parallel === undefined ? {} : { parallel: options.parallel }),
      }),
    );
  const { list } = options;
  const rows = list !== undefined || lessons.length > 1 ? classRows(lessons, list) : [];
  writeEdition(options.out, [
    ...lessons.flatMap((lesson) =>
      lessonFiles(lesson, lessons.length > 1 ? `${lesson.name}/` : ''),
    ),
    ...(rows.length > 0 ? [csv('class.csv', classCsv(rows, lessons, list?.heads ?? []))] : []),
    ...(strays.length > 0
      ? [csv('strays.csv', csvText([['file', 'remarks'], ...strays.map((s) => [s.file, s.why])]))]
      : []),
  ]);
  return {
    folder: path.resolve(options.out),
    lessons,
    files: lessons.flatMap(({ files }) => files),
    slips: lessons
      .flatMap(({ slips }) => slips)
      .sort((a, b) => b.students.length - a.students.length),
    strays,
    rows,
  };
}

/** Two notebooks of one name would have one folder, and answers could be either's. */
function refuseTwins(names: readonly string[]): void {
  const twin = names.find((name, i) => names.indexOf(name) !== i);
  if (twin !== undefined)
    throw new PublishError(
      `Two of the notebooks are named '${twin}'`,
      'mark them one after the other, each with the answers returned for it',
    );
}

/** Which file answers which lesson. Of a single lesson all are its own: those that are not say so in its table. */
function sorted(returned: string, files: readonly string[], names: readonly string[]) {
  const byLesson: string[][] = names.map(() => []);
  const strays: { file: string; why: string }[] = [];
  for (const file of files) {
    if (names.length === 1) {
      byLesson[0]?.push(file);
      continue;
    }
    try {
      const answered = lessonAnswered(returned, file);
      const lesson = byLesson[names.indexOf(answered ?? '')];
      if (lesson) lesson.push(file);
      else
        strays.push({
          file,
          why:
            answered === undefined
              ? 'It does not say which lesson it answers: mark it with its lesson alone.'
              : `It answers "${answered}", which is none of these lessons.`,
        });
    } catch (error) {
      strays.push({ file, why: (error as Error).message });
    }
  }
  return { byLesson, strays };
}

const csv = (name: string, text: string): EditionFile => ({ name, bytes: Buffer.from(text) });

const lessonFiles = (lesson: LessonMarks, folder: string): EditionFile[] => [
  csv(`${folder}marks.csv`, marksCsv(lesson)),
  csv(`${folder}slips.csv`, slipsCsv(lesson.slips)),
  ...lesson.files.map((m, i) => ({
    name: `${folder}feedback/${fileName(m.file, i)}`,
    bytes: Buffer.from(feedbackText(m)),
  })),
];

/** A plain name from whatever the returned file was called. */
const fileName = (file: string, index: number): string =>
  `${String(index + 1).padStart(3, '0')}-${file
    .replace(/\.\w+$/, '')
    .replace(/[^\p{L}\p{N}._-]+/gu, '_')
    .slice(0, 80)}.txt`;
