/** The process in which cells of a published or returned notebook run; the parent has limited what it may do. */
import { CellSession } from '../../cells/index.js';
import { installGlobals } from '../../kernel/host/globals.js';
import { isInternalFile } from '../../kernel/host/internal-files.js';
import { SandboxHost } from './sandbox-host.js';
import type { FromSandbox, ToSandbox } from './messages.js';

const LISTENER = Symbol.for('cocked-hat.checked');
const MARKS = Symbol.for('cocked-hat.marks');
const MOST_JSON = 200_000;

// Kept before any cell runs: a cell may replace what it finds in the global scope.
const post = process.send?.bind(process) as NonNullable<typeof process.send>;
const exit = process.exit.bind(process);
const { stringify } = JSON;
const names = Object.keys;
const globals = globalThis as unknown as Record<string | symbol, unknown>;

/** Who is no longer listened to ends; a failed send left to Node would be reported as an error, by another send. */
const send = (message: FromSandbox): void =>
  void post(message, undefined, undefined, (error) => {
    if (error) exit(0);
  });

const host = new SandboxHost(process.cwd(), (event) => send({ type: 'event', event }));
installGlobals(host, () => {
  throw new Error('this notebook cannot ask for input: nobody is there to answer');
});
const session = new CellSession(host, { isInternal: isInternalFile });
host.runOfStack = (stack) => session.cells.runOfStack(stack);
if (process.argv.includes('--marks')) {
  globals[MARKS] = true;
  globals[LISTENER] = (feedback: unknown) =>
    send({ type: 'checked', feedback: JSON.parse(stringify(feedback)) as unknown });
}
for (const fault of ['uncaughtException', 'unhandledRejection'] as const)
  process.on(fault, (thrown) => session.reportUncaught(thrown, 'Uncaught '));

function valuesOf(fresh: readonly string[]): Record<string, string> {
  const found: Record<string, string> = {};
  for (const name of fresh)
    try {
      const text = stringify(globals[name]);
      if (typeof text === 'string' && text.length <= MOST_JSON) found[name] = text;
    } catch {
      // It has no JSON: no answer is made of it.
    }
  return found;
}

process.on('message', (message: ToSandbox) => void run(message));
async function run({ cell, label, code, keep }: ToSandbox): Promise<void> {
  const before = keep ? new Set(names(globals)) : undefined;
  const outcome = await session.run({ id: cell, label }, code);
  const fresh = before ? names(globals).filter((name) => !before.has(name)) : [];
  send({ type: 'done', cell, outcome, values: valuesOf(fresh) });
}
process.on('disconnect', () => exit(0));
send({ type: 'ready' });
