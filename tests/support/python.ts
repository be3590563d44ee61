/** Runs Python from .env for tests that compare with a Python package. Missing Python fails the test. */
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import type { Socket } from 'node:net';
import { createInterface } from 'node:readline';
import { envBin, ROOT } from '../../src/cli/bootstrap/paths.mjs';

/** The interpreter of .env, where tests/requirements.txt is installed. */
export const PYTHON: string = envBin('python');

function requirePython(): void {
  if (!existsSync(PYTHON))
    throw new Error(`${PYTHON} is missing: npm test installs it (tests/requirements.txt)`);
}

/**
 * Runs a Python program and returns what it printed.
 * @param code the program's text
 * @param input what it reads on standard input
 * @throws Error with Python's own message when it fails
 */
export function runPython(code: string, input = ''): string {
  requirePython();
  const result = spawnSync(PYTHON, ['-c', code], {
    cwd: ROOT,
    input,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (result.status !== 0) throw new Error(`Python failed:\n${result.stderr}`);
  return result.stdout;
}

/**
 * Gives a Python program JSON on standard input and reads JSON from its standard output.
 * The program finds its input in the variable `given` and leaves its answer in `answer`.
 */
export function pythonJson<Answer>(code: string, given: unknown): Answer {
  const program = `import json, sys\ngiven = json.load(sys.stdin)\n${code}\njson.dump(answer, sys.stdout)`;
  return JSON.parse(runPython(program, JSON.stringify(given))) as Answer;
}

/** Answers one program a line, each with names of its own; what they import stays, because that takes longer than they do. */
const SERVER = `
import json, sys, traceback
out, sys.stdout = sys.stdout, sys.stderr
for line in sys.stdin:
    job = json.loads(line)
    names = {'given': job['given']}
    try:
        exec(job['code'], names)
        reply = {'answer': names['answer']}
    except Exception:
        reply = {'error': traceback.format_exc()}
    print(json.dumps(reply), file=out, flush=True)
`;

type Reply = { readonly answer: unknown } | { readonly error: string };
type Settle = (reply: Reply) => void;
let server: { readonly ask: (line: string) => void; readonly waiting: Settle[] } | undefined;

function startServer(): NonNullable<typeof server> {
  requirePython();
  const waiting: Settle[] = [];
  const child = spawn(PYTHON, ['-c', SERVER], { cwd: ROOT, stdio: ['pipe', 'pipe', 'inherit'] });
  createInterface({ input: child.stdout }).on('line', (line) =>
    waiting.shift()?.(JSON.parse(line) as Reply),
  );
  child.once('exit', (code) => {
    server = undefined;
    for (const settle of waiting.splice(0)) settle({ error: `it ended with code ${code}` });
  });
  // It ends with its standard input, so it need not be waited for.
  child.unref();
  (child.stdin as Socket).unref();
  (child.stdout as Socket).unref();
  return { ask: (line) => void child.stdin.write(`${line}\n`), waiting };
}

/**
 * As `pythonJson`, but in one Python process for all tests that share ours, so that scipy and statsmodels are imported once.
 * @throws Error with Python's own message when the program fails
 */
export async function askPython<Answer>(code: string, given: unknown): Promise<Answer> {
  const { ask, waiting } = (server ??= startServer());
  const reply = await new Promise<Reply>((resolve) => {
    waiting.push(resolve);
    ask(JSON.stringify({ code, given }));
  });
  if ('error' in reply) throw new Error(`Python failed:\n${reply.error}`);
  return reply.answer as Answer;
}

/** The installed version of a Python package, to be named beside a comparison. */
export function pythonPackageVersion(name: string): string {
  requirePython();
  const code = `from importlib.metadata import version; print(version(${JSON.stringify(name)}))`;
  return execFileSync(PYTHON, ['-c', code], { encoding: 'utf8' }).trim();
}

/**
 * Runs a Python script of tests/: `input` goes in as JSON on standard input, JSON comes back on standard output.
 * @param script path from the checkout, e.g. `tests/published/python/skyfield_places.py`
 */
export function pythonScript<Answer>(script: string, input: unknown): Answer {
  requirePython();
  const result = spawnSync(PYTHON, [script], {
    cwd: ROOT,
    input: JSON.stringify(input),
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (result.status !== 0) throw new Error(`${script} failed:\n${result.stderr}`);
  return JSON.parse(result.stdout) as Answer;
}
