/** How often to look whether the program that started the kernel is still there. */
const EVERY_MS = 2000;

/** Ends the kernel when the program that started it is gone, so that none is left behind. */
export function followParent(): void {
  const parent = Number(process.env['JPY_PARENT_PID']);
  if (!Number.isInteger(parent) || parent <= 1) return;
  setInterval(() => {
    if (!isAlive(parent)) process.kill(process.pid, 'SIGKILL');
  }, EVERY_MS).unref();
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
