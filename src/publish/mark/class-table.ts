import { nearest } from '../../core/units/nearest-word.js';
import { plainName } from '../../exercises/index.js';
import type { ClassList } from './class-list.js';
import { csvText } from './csv.js';
import { marksOf, remarksOn, type LessonMarks } from './marks-table.js';

/** One student over all lessons. */
export interface ClassRow {
  readonly student: string;
  /** Cells of the class list's other columns. */
  readonly more: readonly string[];
  /** Marks by lesson; `undefined` where nothing was handed in, or nothing that could be marked. */
  readonly marks: readonly (number | undefined)[];
  readonly onList: boolean;
  readonly remarks: readonly string[];
}

/** The class: a row for each name of the list in its order, then one for each name that came in without being on it. */
export function classRows(
  lessons: readonly LessonMarks[],
  list: ClassList = { heads: [], students: [] },
): ClassRow[] {
  const handedIn = lessons.flatMap((lesson) =>
    lesson.files.map((file) => ({ lesson, file, key: keyOf(file.student) })),
  );
  const rowOf = (student: string, more: readonly string[], onList: boolean): ClassRow => {
    const own = handedIn.filter(({ key }) => key === keyOf(student));
    const marks = lessons.map((lesson) => {
      const tries = own.filter((o) => o.lesson === lesson && o.file.questions.length > 0);
      return tries.length === 0 ? undefined : Math.max(...tries.map(({ file }) => marksOf(file)));
    });
    const said = lessons.flatMap((lesson) => {
      const files = own.filter((o) => o.lesson === lesson).map(({ file }) => file);
      const several =
        files.length > 1
          ? [`${files.map(({ file }) => file).join(' and ')} were handed in; the best counts.`]
          : [];
      const about = [...several, ...files.flatMap((file) => remarksOn(file, lesson))];
      return lessons.length > 1 ? about.map((remark) => `${lesson.name}: ${remark}`) : about;
    });
    const stranger = onList || list.students.length === 0 ? [] : [strange(student, list)];
    return { student, more, marks, onList, remarks: [...stranger, ...new Set(said)] };
  };
  const listed = new Set(list.students.map(({ name }) => keyOf(name)));
  const others = new Map(
    handedIn
      .filter(({ key }) => key !== '' && !listed.has(key))
      .map(({ key, file }) => [key, file.student]),
  );
  return [
    ...list.students.map(({ name, more }) => rowOf(name, more, true)),
    ...[...others.values()].map((name) => rowOf(name, [], false)),
  ];
}

/** The class as one table: what stands in the list, marks of each lesson, their sum, what is still to come, remarks. */
export function classCsv(
  rows: readonly ClassRow[],
  lessons: readonly LessonMarks[],
  heads: readonly string[],
): string {
  const head = [
    'student',
    ...heads,
    ...lessons.map(({ name, outOf }) => `${name} (of ${outOf})`),
    'marks',
    'of',
    'not handed in',
    'remarks',
  ];
  const of = lessons.reduce((sum, { outOf }) => sum + outOf, 0);
  return csvText([
    head,
    ...rows.map(({ student, more, marks, remarks }) => [
      student,
      ...heads.map((_, i) => more[i] ?? ''),
      ...marks.map((mark) => mark ?? ''),
      marks.reduce<number>((sum, mark) => sum + (mark ?? 0), 0),
      of,
      notHandedIn(marks, lessons).join('; '),
      remarks.join(' '),
    ]),
  ]);
}

/** The lessons of which nothing came in that could be marked. */
export const notHandedIn = (
  marks: ClassRow['marks'],
  lessons: readonly LessonMarks[],
): readonly string[] => lessons.filter((_, i) => marks[i] === undefined).map(({ name }) => name);

/** A name may be anything; what cannot be a student's name is nobody's. */
function keyOf(name: string): string {
  try {
    return plainName(name);
  } catch {
    return '';
  }
}

function strange(student: string, { students }: ClassList): string {
  const near = nearest(
    student,
    students.map(({ name }) => name),
  );
  return near === undefined
    ? 'This name is not on the class list.'
    : `This name is not on the class list; '${near}' is near to it. The numbers are those of the name as written.`;
}
