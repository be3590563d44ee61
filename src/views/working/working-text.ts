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
  const sigma = sigmaUnit === '°' ? sigmaArcmin / 60 : sigmaArcmin;
  return sigma > 0 ? `± ${sigma.toFixed(1)}${sigmaUnit}, 1σ` : '';
}

/** Whether a column of corrections says anything: not where there is none, and not where the value is the correction itself. */
export const hasCorrections = ({ rows }: Pick<WorkingData, 'rows'>): boolean =>
  rows.some((row) => row.correction !== undefined && row.correction !== row.running);

/** Whether more than one step shares in the variance. */
export const hasShares = ({ rows }: Pick<WorkingData, 'rows'>): boolean =>
  rows.filter((row) => row.varianceShare > 0).length > 1;

/** The working as lines of a page of arithmetic, columns aligned, to read or to paste into a letter. */
export function workingText(data: WorkingData): string {
  const cells = (row: WorkingRow) => [
    row.title,
    row.figures,
    ...(hasCorrections(data) ? [row.correction ?? ''] : []),
    row.running,
  ];
  const widths = cells(data.rows[0] as WorkingRow).map((_, i) =>
    Math.max(...data.rows.map((row) => width(cells(row)[i] ?? ''))),
  );
  const lines = data.rows.flatMap((row) => {
    const line = cells(row)
      .map((cell, i) => (i < 2 ? left : right)(cell, widths[i] ?? 0))
      .join('  ');
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
