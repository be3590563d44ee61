import type { CodeCell, Services } from '../view.js';

const TRIES = 20;
const PAUSE_MS = 50;

/**
 * Begins once the output is in the page: it may be put there after it is made, and only then is it known which notebook
 * it stands in. Returns what ends the waiting.
 */
export function whenShown(
  host: HTMLElement,
  { codeCell }: Services,
  begin: (cell: CodeCell | undefined) => void,
): () => void {
  let tries = 0;
  let timer: ReturnType<typeof setTimeout>;
  const look = () => {
    const cell = codeCell?.(host);
    if (cell || (host.isConnected && (!codeCell || tries > TRIES))) return begin(cell);
    tries += 1;
    timer = setTimeout(look, PAUSE_MS);
  };
  timer = setTimeout(look, 0);
  return () => clearTimeout(timer);
}
