/** What `fork` is told so that the system ends the process after so much time on the processor. */
export interface ForkWords {
  readonly execPath: string;
  readonly execArgv: string[];
}

/**
 * The limit of POSIX's `ulimit -t`, set by a shell that then becomes the process. A cell that never gives way hears neither
 * a message nor the end of its parent; the system's limit ends it all the same. Windows has no such command.
 * @param execArgv arguments of Node
 */
export function withinProcessorTime(execArgv: readonly string[], seconds: number): ForkWords {
  const { execPath } = process;
  if (process.platform === 'win32') return { execPath, execArgv: [...execArgv] };
  const script = 'ulimit -t "$0" && exec "$@"';
  return {
    execPath: '/bin/sh',
    execArgv: ['-c', script, String(Math.ceil(seconds)), execPath, ...execArgv],
  };
}
