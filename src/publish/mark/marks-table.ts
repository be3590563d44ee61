import { standingWords } from '../../exercises/index.js';
import { csvText } from './csv.js';
import type { CheckedLine, Marked } from './marker.js';

/** One returned file with what came of it. */
export interface MarkedFile extends Marked {
  readonly file: string;
  readonly edition?: string;
}

/** A lesson with all that was handed in for it. */
export interface LessonMarks {
  /** The name of its editions. */
  readonly name: string;
  /** The version of the edition that the teacher's notebook makes now. */
  readonly version: string;
  /** Marks that a whole right working earns. */
  readonly outOf: number;
  readonly files: readonly MarkedFile[];
  readonly slips: readonly ClassSlip[];
}

/** A slip of the class: where it was made, how often, and by whom. */
export interface ClassSlip {
  readonly line: string;
  readonly slip: string;
  readonly students: readonly string[];
}

/** The class's slips, the commonest first. */
export function classSlips(files: readonly MarkedFile[]): ClassSlip[] {
  const slips = new Map<string, { line: string; slip: string; students: string[] }>();
  for (const { student, questions } of files)
    for (const { question, lines } of questions)
      for (const { id, slip } of lines) {
        if (slip === undefined) continue;
        const key = `${question}/${id}: ${slip}`;
        const entry = slips.get(key) ?? { line: `${question}/${id}`, slip, students: [] };
        entry.students.push(student);
        slips.set(key, entry);
      }
  return [...slips.values()].sort(
    (a, b) => b.students.length - a.students.length || a.line.localeCompare(b.line),
  );
}

/** Marks of a file over all its questions. */
export const marksOf = ({ questions }: MarkedFile): number =>
  questions.reduce((sum, { marks }) => sum + marks, 0);

/** Another file under the same name. */
function twinOf(file: MarkedFile, files: readonly MarkedFile[]): string[] {
  const name = file.student.toLowerCase();
  const twin = files.find((f) => f !== file && name !== '' && f.student.toLowerCase() === name);
  return twin ? [`The same name is in ${twin.file}.`] : [];
}

/** What a teacher should know of a file: why it could not be marked, another edition. */
export function remarksOn(file: MarkedFile, { version }: Pick<LessonMarks, 'version'>): string[] {
  return [
    ...file.remarks,
    ...(file.edition !== undefined && file.edition !== version
      ? [`Edition ${file.edition} was answered; this is ${version}.`]
      : []),
  ];
}

/** What stands under a line: its marks, or the words where it is answered in words. */
const underLine = (line: CheckedLine): string | number =>
  line.outOf === 0 ? (line.written ?? '') : line.marks;

/**
 * One row a file: marks, the first wrong line of each question, the slips, and remarks; then every line's marks, and
 * what was written on lines that are answered in words.
 */
export function marksCsv(lesson: Pick<LessonMarks, 'files' | 'version'>): string {
  const { files } = lesson;
  const lines = [
    ...new Set(
      files.flatMap((f) => f.questions.flatMap((q) => q.lines.map((l) => `${q.question}/${l.id}`))),
    ),
  ];
  const head = [
    'file',
    'student',
    'numbers',
    'marks',
    'of',
    'first wrong line',
    'slips',
    'remarks',
    ...lines,
  ];
  const rows = files.map((f) => {
    const byLine = new Map<string, string | number>(
      f.questions.flatMap((q) =>
        q.lines.map((l) => [`${q.question}/${l.id}`, underLine(l)] as const),
      ),
    );
    return [
      f.file,
      f.student,
      f.questions.map((q) => q.code ?? '').join(' '),
      marksOf(f),
      f.questions.reduce((sum, { outOf }) => sum + outOf, 0),
      f.questions
        .flatMap((q) => (q.firstWrong ? [`${q.question}/${q.firstWrong}`] : []))
        .join('; '),
      f.questions
        .flatMap((q) => q.lines.flatMap((l) => (l.slip ? [`${l.id}: ${l.slip}`] : [])))
        .join('; '),
      [...twinOf(f, files), ...remarksOn(f, lesson)].join(' '),
      ...lines.map((line) => byLine.get(line) ?? ''),
    ];
  });
  return csvText([head, ...rows]);
}

export function slipsCsv(slips: readonly ClassSlip[]): string {
  const rows = slips.map((s) => [s.line, s.slip, s.students.length, s.students.join('; ')]);
  return csvText([['line', 'slip', 'students', 'who'], ...rows]);
}

/** The standing as the student reads it. */
const standingOf = ({ standing }: CheckedLine): string =>
  (standingWords as Readonly<Record<string, string>>)[standing] ?? standing;

/** The feedback that a student gets back, as plain text. */
export function feedbackText(marked: MarkedFile): string {
  const parts = marked.questions.map((q) =>
    [
      `${q.title ?? q.question}: ${q.marks} of ${q.outOf} marks`,
      ...q.lines.map(
        (l) =>
          `  ${l.title ?? l.id}${l.written ? ` = ${l.written}` : ''} (${standingOf(l)}): ${l.sentences.join(' ')}`,
      ),
    ].join('\n'),
  );
  return `${[marked.student || marked.file, ...parts, ...marked.remarks].join('\n\n')}\n`;
}
