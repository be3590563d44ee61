import type { CellEvent } from './events.js';
import type { Run } from './host.js';

/** Most characters that one cell may print, and most displays it may show. */
const MOST_TEXT = 16 * 1024 * 1024;
const MOST_DISPLAYS = 50_000;

type Emit = (event: CellEvent, run: Run | undefined) => void;

interface Amount {
  text: number;
  displays: number;
  noticed: boolean;
}

/**
 * Passes on what cells put out until one floods its reader; then says so, once, and drops the rest.
 * A single output is never cut, however large.
 */
export function limitOutput(emit: Emit): Emit {
  const amounts = new WeakMap<Run, Amount>();
  return (event, run) => {
    if (!run || (event.type !== 'stream' && event.type !== 'display')) return emit(event, run);
    const amount = amounts.get(run) ?? { text: 0, displays: 0, noticed: false };
    amounts.set(run, amount);
    if (amount.text < MOST_TEXT && amount.displays < MOST_DISPLAYS) {
      if (event.type === 'stream') amount.text += event.text.length;
      else amount.displays++;
      return emit(event, run);
    }
    if (amount.noticed) return;
    amount.noticed = true;
    const text =
      amount.text >= MOST_TEXT
        ? `\n… output was cut off: this cell has printed more than ${MOST_TEXT / 1024 / 1024} million characters\n`
        : `\n… output was cut off: this cell has shown more than ${MOST_DISPLAYS} displays\n`;
    emit({ type: 'stream', name: 'stderr', text }, run);
  };
}
