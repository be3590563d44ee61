/** When to stop: Ctrl-C, a signal, a closed terminal, or the npm that started us being gone. */

/** Resolves to a word that says why; a second Ctrl-C ends the program at once. */
export function onStopRequest() {
  return new Promise((resolve) => {
    const ask = (reason) => {
      resolve(reason);
      process.once('SIGINT', () => process.exit(130));
    };
    process.once('SIGINT', () => ask('Ctrl-C'));
    for (const signal of ['SIGTERM', 'SIGHUP']) process.once(signal, () => ask(signal));
    if (!process.env.npm_lifecycle_event || process.platform === 'win32') return;
    const starter = process.ppid;
    const watch = setInterval(() => {
      if (process.ppid === starter) return;
      clearInterval(watch);
      ask('npm is gone');
    }, 500);
    watch.unref();
  });
}
