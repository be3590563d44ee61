import { csvText } from './csv.js';
import type { Marked } from './marker.js';

/** One returned file with what came of it. */
export interface MarkedFile extends Marked {
  readonly file: string;
  readonly edition?: string;
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

/** One row a file: marks, the first wrong line of each question, the slips, and remarks; then every line's marks. */
export function marksCsv(files: readonly MarkedFile[], version: string): string {
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
  const names = files.map((f) => f.student.toLowerCase());
  const rows = files.map((f, i) => {
    const byLine = new Map<string, number>(
      f.questions.flatMap((q) => q.lines.map((l) => [`${q.question}/${l.id}`, l.marks] as const)),
    );
    const sum = (part: 'marks' | 'outOf') => f.questions.reduce((total, q) => total + q[part], 0);
    const twin = names.findIndex((name, k) => name !== '' && k !== i && name === names[i]);
    const remarks = [
      ...f.remarks,
      ...(twin >= 0 ? [`The same name is in ${files[twin]?.file ?? ''}.`] : []),
      ...(f.edition !== undefined && f.edition !== version
        ? [`Edition ${f.edition} was answered; this is ${version}.`]
        : []),
    ];
    return [
      f.file,
      f.student,
      f.questions.map((q) => q.code ?? '').join(' '),
      sum('marks'),
      sum('outOf'),
      f.questions
        .flatMap((q) => (q.firstWrong ? [`${q.question}/${q.firstWrong}`] : []))
        .join('; '),
      f.questions
        .flatMap((q) => q.lines.flatMap((l) => (l.slip ? [`${l.id}: ${l.slip}`] : [])))
        .join('; '),
      remarks.join(' '),
      ...lines.map((line) => byLine.get(line) ?? ''),
    ];
  });
  return csvText([head, ...rows]);
}

export function slipsCsv(slips: readonly ClassSlip[]): string {
  const rows = slips.map((s) => [s.line, s.slip, s.students.length, s.students.join('; ')]);
  return csvText([['line', 'slip', 'students', 'who'], ...rows]);
}

/** The feedback that a student gets back, as plain text. */
export function feedbackText(marked: MarkedFile): string {
  const parts = marked.questions.map((q) =>
    [
      `${q.title ?? q.question}: ${q.marks} of ${q.outOf} marks`,
      ...q.lines.map(
        (l) =>
          `  ${l.title ?? l.id}${l.written ? ` = ${l.written}` : ''} (${l.standing}): ${l.sentences.join(' ')}`,
      ),
    ].join('\n'),
  );
  return `${[marked.student || marked.file, ...parts, ...marked.remarks].join('\n\n')}\n`;
}
