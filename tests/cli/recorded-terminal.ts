import type { Terminal } from '../../src/cli/terminal.js';

/** A terminal that keeps what is written to it. */
export function recordedTerminal() {
  const said: string[] = [];
  const warned: string[] = [];
  const terminal: Terminal = {
    say: (line) => said.push(line),
    warn: (line) => warned.push(line),
    status: () => {},
  };
  return { terminal, output: () => said.join('\n'), errors: () => warned.join('\n') };
}
