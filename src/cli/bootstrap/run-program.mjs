/** Runs another program, keeps its output in a log, and turns a failure into a SetupFailure. */
import { spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { SetupFailure } from './failure.mjs';
import { CACHE, ROOT, shown } from './paths.mjs';

const windows = process.platform === 'win32';
const LAST_LINES = 20;

/** npm is a batch file on Windows and needs a shell there; node and python are not. */
const needsShell = (command) => windows && !/\.exe$/i.test(command) && !path.isAbsolute(command);

/** True if the program can be started and says it is well. */
export function answers(command, args = ['--version']) {
  const shell = needsShell(command);
  return spawnSync(command, args, { stdio: 'ignore', shell, timeout: 30_000 }).status === 0;
}

/** The program's standard output, or undefined if it could not run. */
export function outputOf(command, args) {
  const options = { encoding: 'utf8', shell: needsShell(command), timeout: 30_000 };
  const result = spawnSync(command, args, options);
  return result.status === 0 ? result.stdout : undefined;
}

/**
 * @param {string} command
 * @param {string[]} args
 * @param {{ log: string, remedy: string, what: string, env?: NodeJS.ProcessEnv, onLine?: (line: string) => void }} options
 *   `log` is the log's short name; `what` and `remedy` go into the error.
 */
export async function runProgram(command, args, { log, what, remedy, env, onLine }) {
  const logFile = path.join(CACHE, 'logs', `${log}.log`);
  fs.mkdirSync(path.dirname(logFile), { recursive: true });
  fs.writeFileSync(logFile, `${command} ${args.join(' ')}\n`);
  const lines = [];
  const keep = (chunk) => {
    fs.appendFileSync(logFile, chunk);
    for (const line of String(chunk).split(/[\r\n]+/)) {
      if (!line.trim()) continue;
      lines.push(line.trimEnd());
      if (lines.length > LAST_LINES) lines.shift();
      onLine?.(line.trim());
    }
  };
  const child = spawn(command, args, {
    cwd: ROOT,
    env: env ?? process.env,
    stdio: ['ignore', 'pipe', 'pipe'],
    shell: needsShell(command),
  });
  child.stdout.on('data', keep);
  child.stderr.on('data', keep);
  const outcome = await new Promise((resolve) => {
    child.on('error', (error) => resolve(error.message));
    child.on('close', (code, signal) => resolve(code === 0 ? '' : `ended with ${signal ?? code}`));
  });
  if (outcome)
    throw new SetupFailure(`${what} (${path.basename(command)} ${outcome})`, {
      remedy,
      details: lines.join('\n'),
      log: shown(logFile),
    });
}
