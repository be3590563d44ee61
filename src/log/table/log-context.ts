import { LogReport } from '../report.js';
import type { Track } from '../exchange/track.js';

/** What a log carries besides its rows. */
export interface LogContext {
  /** Comment lines of the file, with their #. */
  readonly preamble: readonly string[];
  /** Heads of the user's own columns by key. */
  readonly ownHeads: ReadonlyMap<string, string>;
  readonly report: LogReport;
  /** The known track that residuals are taken against. */
  readonly track: Track | null;
}

export const emptyContext: LogContext = Object.freeze({
  preamble: [],
  ownHeads: new Map(),
  report: new LogReport(0, [], [], []),
  track: null,
});
