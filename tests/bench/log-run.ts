import { simulatePassage, SightLog } from 'cocked-hat';

const ROWS = 100_000;
const MIB = 1024 * 1024;
const DAY_MS = 86_400_000;

/** A log of 100,000 different rows: passages of other seeds, each moved by some days so that no row repeats another. */
export function bigLog(): string {
  const lines: string[] = [];
  for (let seed = 1; lines.length < ROWS; seed++) {
    const [head, ...rows] = simulatePassage(seed % 25, [])
      .csv.trimEnd()
      .split('\n');
    if (lines.length === 0) lines.push(head as string);
    const shift = Math.floor(seed / 25) * 20 * DAY_MS;
    for (const row of rows) if (lines.length <= ROWS) lines.push(moved(row, shift));
  }
  return lines.join('\n') + '\n';
}

const TIME = /\d{4}-\d{2}-\d{2} \d{2}:\d{2}:\d{2}/;
const moved = (row: string, shiftMs: number): string =>
  row.replace(TIME, (t) =>
    new Date(Date.parse(`${t.replace(' ', 'T')}Z`) + shiftMs)
      .toISOString()
      .slice(0, 19)
      .replace('T', ' '),
  );

/** Loads and validates, then reduces every reading to Ho, Hc, Zn and intercept. */
export function measureLog(text: string) {
  globalThis.gc?.();
  const before = process.memoryUsage().rss;
  const start = performance.now();
  const log = SightLog.fromCsv(text);
  const loaded = performance.now();
  const ho = log.array('hoDeg') as number[];
  const intercept = log.array('interceptNm') as number[];
  const reduced = performance.now();
  return {
    rows: log.numRows(),
    refused: log.report.refused.length,
    loadSeconds: (loaded - start) / 1000,
    reduceSeconds: (reduced - loaded) / 1000,
    peakMib: process.resourceUsage().maxRSS / 1024,
    beforeMib: before / MIB,
    sumReading: (log.array('readingDeg') as number[]).reduce((s, v) => s + v, 0),
    sumHo: ho.reduce((s, v) => s + v, 0),
    worked: intercept.filter((v) => v !== null && Number.isFinite(v)).length,
  };
}
