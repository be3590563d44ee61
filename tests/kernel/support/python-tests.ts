/** Runs a Python unittest file against the built kernel and reports each of its tests. */
import { spawn } from 'node:child_process';
import path from 'node:path';
import { ROOT } from '../../../src/cli/bootstrap/paths.mjs';
import { PYTHON } from '../../support/python.js';
import { builtKernel } from './built-kernel.js';

export interface PythonTest {
  readonly name: string;
  readonly status: 'ok' | 'skipped' | 'failed';
}

export interface PythonRun {
  readonly tests: readonly PythonTest[];
  /** All that was printed, for the report of a failure. */
  readonly text: string;
}

/** `python -m unittest -v` prints a line `test_x (…) ... ok` for each test. */
const LINE = /^(test_\w+) \([^)]*\)(?:\n.*)? \.\.\. (?:.*\n)*?.*?\b(ok|skipped|FAIL|ERROR)\b/gm;

export async function runPythonTests(file: string, names: string[] = []): Promise<PythonRun> {
  const { env } = await builtKernel();
  const folder = path.join(ROOT, 'tests', 'kernel', 'python');
  const module = file.replace(/\.py$/, '');
  const targets = names.length ? names.map((name) => `${module}.${name}`) : [module];
  const child = spawn(PYTHON, ['-W', 'ignore', '-m', 'unittest', '-v', ...targets], {
    cwd: folder,
    env,
  });
  let text = '';
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (chunk: Buffer) => (text += chunk.toString()));
  await new Promise((resolve, reject) => child.on('close', resolve).on('error', reject));
  const tests = [...text.matchAll(LINE)].map(([, name = '', word]) => ({
    name,
    status: word === 'ok' ? 'ok' : word === 'skipped' ? 'skipped' : 'failed',
  })) as PythonTest[];
  return { tests, text };
}
