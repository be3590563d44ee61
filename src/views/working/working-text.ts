import type { WorkingData, WorkingRow } from './working-data.js';

const width = (text: string) => [...text].length;
const right = (text: string, to: number) => ' '.repeat(Math.max(0, to - width(text))) + text;
const left = (text: string, to: number) => text + ' '.repeat(Math.max(0, to - width(text)));

/** `± 0.7′, 1σ`, `± 1.0 nm, 1σ`, or nothing when no error is stated. */
export function sigmaText({
  sigmaArcmin,
  sigmaUnit = '′',
}: {
  readonly sigmaArcmin: number;
  readonly sigmaUnit?: string;
}): string {
  return sigmaArcmin > 0 ? `± ${sigmaArcmin.toFixed(1)}${sigmaUnit}, 1σ` : '';
}

/** The working as lines of a page of arithmetic, columns aligned, to read or to paste into a letter. */
export function workingText(data: WorkingData): string {
  const cells = (row: WorkingRow) =>
    [row.title, row.figures, row.correction ?? '', row.running] as const;
  const widths = [0, 1, 2, 3].map((i) =>
    Math.max(...data.rows.map((row) => width(cells(row)[i] ?? ''))),
  );
  const lines = data.rows.flatMap((row) => {
    const [title, figures, correction, running] = cells(row);
    const line = [
      left(title, widths[0] ?? 0),
      left(figures, widths[1] ?? 0),
      right(correction, widths[2] ?? 0),
      right(running, widths[3] ?? 0),
    ].join('  ');
    return row.isSum ? ['─'.repeat(width(line)), line] : [line];
  });
  const sigma = sigmaText(data);
  return [
    data.title,
    ...lines,
    ...(sigma ? [sigma] : []),
    ...(data.assumed.length ? [`Assumed: ${data.assumed.join('; ')}.`] : []),
    ...data.flags,
    ...data.cautions,
  ].join('\n');
}
