/** Where a command writes: results to standard output, progress and errors to standard error. */
export interface Terminal {
  /** A line of the result. */
  say(line: string): void;
  /** A line about an error or a warning. */
  warn(line: string): void;
  /** What is going on now; replaced by the next call, shown on a terminal only. */
  status(line: string): void;
}

/** The terminal of this process. */
export function processTerminal(): Terminal {
  const live = process.stderr.isTTY === true;
  const erase = () => {
    if (live) process.stderr.write('\r\x1b[2K');
  };
  return {
    say(line) {
      erase();
      process.stdout.write(`${line}\n`);
    },
    warn(line) {
      erase();
      process.stderr.write(`${line}\n`);
    },
    status(line) {
      if (!live) return;
      erase();
      process.stderr.write(line.slice(0, (process.stderr.columns ?? 80) - 1));
    },
  };
}
