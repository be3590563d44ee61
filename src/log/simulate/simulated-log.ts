import { SightLog } from '../sight-log.js';
import { simulatedCsv } from './log-text.js';
import type { SimulatedReading } from './truth.js';

/** A simulated log, what was written and what is true. */
export interface SimulatedLog {
  readonly csv: string;
  readonly log: SightLog;
  readonly readings: readonly SimulatedReading[];
  /** The planted errors, by name, with their unit in the name. */
  readonly planted: Readonly<Record<string, unknown>>;
}

/** What every simulated file says of itself. */
export function simulatedNote(seed: number): string[] {
  return [`Simulated, not observed: library almanac and a seeded error model, seed ${seed}.`];
}

/** The log that the readings make when they are written down and read again. @param preamble comment lines without # */
export function written(
  readings: readonly SimulatedReading[],
  preamble: readonly string[],
): Pick<SimulatedLog, 'csv' | 'log' | 'readings'> {
  const csv = simulatedCsv(readings, preamble);
  return { csv, log: SightLog.fromCsv(csv), readings };
}
