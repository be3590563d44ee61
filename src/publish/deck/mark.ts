import { EntryError } from '../../core/units/index.js';
import { logColumn } from '../../log/columns/log-columns.js';

/** What is noted with every mark until it is changed: texts as typed, by the key of the log's column. */
export type Conditions = Readonly<Record<string, string>>;

/** A body as it is taken: the Sun and the Moon with their limb, all others without. */
export interface Target {
  readonly body: string;
  readonly limb: '' | 'lower' | 'upper';
}

/** One press of the button, and what was filled in afterwards. */
export interface DeckMark extends Target {
  readonly id: string;
  /** What the clock of the device showed, milliseconds since 1970. */
  readonly deviceMs: number;
  /** Degrees and minutes as typed: `41°18.6`. */
  readonly reading: string;
  readonly isOffArc: boolean;
  readonly conditions: Conditions;
  readonly remarks: string;
  /** Struck out marks stay on the sheet and go into the log as not accepted. */
  readonly isStruck: boolean;
}

/** `Sun, lower limb`; `Canopus`. */
export const targetText = ({ body, limb }: Target): string =>
  limb === '' ? body : `${body}, ${limb} limb`;

/** The reading as it goes into a log: `41°18.6′`, `0°05.0′ off the arc`; empty when nothing was typed. */
export function readingText({ reading, isOffArc }: Pick<DeckMark, 'reading' | 'isOffArc'>): string {
  if (reading === '') return '';
  const minutes = reading.includes('°') && !reading.endsWith('°') ? '′' : '';
  return `${reading}${minutes}${isOffArc ? ' off the arc' : ''}`;
}

/** What keeps a cell out of a log, in words; null when it is good. */
export function faultOf(key: string, text: string): string | null {
  try {
    logColumn(key).read(text);
    return null;
  } catch (error) {
    // The mark under the place stands only in a face of even width; the entry is above it here anyhow.
    if (error instanceof EntryError) return error.message.split('\n')[0]!;
    throw error;
  }
}

/** What the reading still lacks, in words; null when it can go into a log. */
export function readingFault(mark: Pick<DeckMark, 'reading' | 'isOffArc'>): string | null {
  const { reading } = mark;
  if (reading === '') return 'No reading yet.';
  if (!reading.includes('°')) return 'Degrees first, then the ° key, then minutes.';
  if (reading.endsWith('°')) return 'Minutes and tenths are missing.';
  return faultOf('readingDeg', readingText(mark));
}

/** What a mark lacks before it can be a row of a sight log; null when nothing. */
export function markFault(mark: DeckMark): string | null {
  if (mark.body === '') return 'No body yet.';
  return readingFault(mark);
}

/** Whether a kept item is a mark: another version, or another hand, may have written it. */
export function isDeckMark(value: unknown): value is DeckMark {
  const m = value as Partial<Record<keyof DeckMark, unknown>> | null;
  return (
    typeof m === 'object' &&
    m !== null &&
    Number.isFinite(m.deviceMs) &&
    [m.id, m.body, m.limb, m.reading, m.remarks].every((text) => typeof text === 'string') &&
    typeof m.conditions === 'object' &&
    m.conditions !== null &&
    Object.values(m.conditions).every((text) => typeof text === 'string')
  );
}
