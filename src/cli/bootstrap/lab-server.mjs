/** Starts the JupyterLab of .env and stops it with everything it started. */
import { spawn } from 'node:child_process';
import crypto from 'node:crypto';
import fs from 'node:fs';
import net from 'node:net';
import path from 'node:path';
import { SetupFailure } from './failure.mjs';
import { BIN, CACHE, ENV, envBin, ROOT, shown } from './paths.mjs';
import { descendants, endTree, isAlive } from './process-tree.mjs';
import { pythonEnvironment } from './python.mjs';
import { whatToOpen } from './what-to-open.mjs';

const windows = process.platform === 'win32';
/** What the file browser leaves out. */
const HIDDEN = "['node_modules', 'dist', '__pycache__', '*.pyc', '*~']";
const HOST = '127.0.0.1';
const FIRST_PORT = 8888;
const READY_S = 90;
const GRACE_S = 10;
const SERVE = path.join(ROOT, 'src', 'cli', 'bootstrap', 'serve.py');

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

function isFree(port) {
  return new Promise((resolve) => {
    const probe = net.createServer();
    probe.once('error', () => resolve(false));
    probe.listen(port, HOST, () => probe.close(() => resolve(true)));
  });
}

/** The wanted port, or the first free one from 8888 on. */
export async function choosePort(wanted) {
  if (wanted !== undefined) {
    if (await isFree(wanted)) return wanted;
    throw new SetupFailure(`port ${wanted} is in use by another program`, {
      remedy: `leave out --port to take a free one, or name another: --port ${wanted + 1}`,
    });
  }
  for (let port = FIRST_PORT; port < FIRST_PORT + 100; port++) if (await isFree(port)) return port;
  throw new SetupFailure(`no port from ${FIRST_PORT} to ${FIRST_PORT + 99} is free`, {
    remedy: 'name a free one: --port 9500',
  });
}

/** Settings, logs and run-time files of Jupyter stay inside .env; the user's own Jupyter is not touched. */
function jupyterEnvironment(token) {
  const home = path.join(ENV, 'jupyter');
  const inherited = pythonEnvironment(['JUPYTER_PATH', 'JUPYTER_CONFIG_PATH']);
  // Windows writes the name `Path`.
  const ways = Object.keys(inherited).find((name) => name.toUpperCase() === 'PATH') ?? 'PATH';
  return {
    ...inherited,
    // For terminals on Windows; elsewhere see terminalOptions.
    [ways]: [inherited[ways], BIN].filter(Boolean).join(path.delimiter),
    JUPYTER_TOKEN: token,
    JUPYTER_PREFER_ENV_PATH: '1',
    JUPYTER_CONFIG_DIR: path.join(home, 'config'),
    JUPYTER_DATA_DIR: path.join(home, 'data'),
    JUPYTER_RUNTIME_DIR: path.join(home, 'runtime'),
    IPYTHONDIR: path.join(home, 'ipython'),
  };
}

/**
 * A terminal in JupyterLab knows the command in whatever folder it stands. A login shell sets its own PATH, so ours is
 * added behind it.
 */
function terminalOptions() {
  if (windows) return [];
  const shell = process.env.SHELL || 'sh';
  const quoted = (text) => `'${text.replaceAll("'", `'"'"'`)}'`;
  const add = `exec env PATH="$PATH"${quoted(`:${BIN}`)} ${quoted(shell)}`;
  return [
    `--ServerApp.terminado_settings=${JSON.stringify({ shell_command: [shell, '-l', '-c', add] })}`,
  ];
}

function jupyterOptions(port, { root, first }) {
  const options = [
    '--no-browser',
    '-y',
    `--ServerApp.ip=${HOST}`,
    `--ServerApp.port=${port}`,
    '--ServerApp.port_retries=0',
    `--ServerApp.root_dir=${root}`,
    `--FileContentsManager.preferred_dir=${first}`,
    `--ContentsManager.hide_globs=${HIDDEN}`,
    '--MultiKernelManager.default_kernel_name=cocked-hat',
    // Nothing is asked of the network.
    '--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate',
    '--LabApp.news_url=None',
    '--LabApp.extension_manager=readonly',
    ...terminalOptions(),
  ];
  if (process.getuid?.() === 0) options.push('--allow-root');
  return options;
}

function lastLines(file) {
  const lines = fs.readFileSync(file, 'utf8').trimEnd().split('\n').slice(-20);
  return lines.map((line) => line.slice(0, 300)).join('\n');
}

async function waitUntilReady(child, base, headers, logFile) {
  const end = Date.now() + READY_S * 1000;
  const failed = (what) =>
    new SetupFailure(what, {
      details: lastLines(logFile),
      log: shown(logFile),
      remedy: 'if the message above does not tell, delete the folder .env and start again',
    });
  while (Date.now() < end) {
    if (child.exitCode !== null || child.signalCode !== null)
      throw failed('JupyterLab ended while starting');
    try {
      if ((await fetch(`${base}/api/status`, { headers })).ok) return;
    } catch {
      // It does not listen yet.
    }
    await pause(50);
  }
  throw failed(`JupyterLab did not answer within ${READY_S} s`);
}

async function stopServer(child, ended, base, headers) {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const children = descendants(child.pid);
  // A signal ends a program on Windows at once and would leave its kernels; a request lets it tidy up.
  if (windows) await fetch(`${base}/api/shutdown`, { method: 'POST', headers }).catch(() => {});
  else child.kill('SIGTERM');
  await Promise.race([ended, pause(GRACE_S * 1000)]);
  if (child.exitCode === null && child.signalCode === null) endTree(child.pid, children);
  else for (const id of children.filter(isAlive)) endTree(id, []);
}

/**
 * Starts JupyterLab and waits until it answers.
 * @param {{ port?: number, token?: string, place?: ReturnType<typeof whatToOpen> }} options without a port the first free one
 *   from 8888 on is taken, without a place the notebooks of this checkout
 * @returns {Promise<{ port: number, base: string, url: string, token: string, pid: number, ended: Promise<number | null>, stop(): Promise<void> }>}
 *   `base` without the token, `url` with it; `ended` gives the exit code
 */
export async function startLab({
  port: wanted,
  token = process.env.JUPYTER_TOKEN,
  place = whatToOpen(undefined),
} = {}) {
  const port = await choosePort(wanted);
  const key = token || crypto.randomBytes(24).toString('hex');
  const base = `http://${HOST}:${port}`;
  const headers = { authorization: `token ${key}` };
  const logFile = path.join(CACHE, 'logs', `jupyterlab-${port}.log`);
  fs.mkdirSync(path.dirname(logFile), { recursive: true });
  const log = fs.openSync(logFile, 'w');
  const child = spawn(envBin('python'), [SERVE, ...jupyterOptions(port, place)], {
    // Where a terminal opened in JupyterLab begins.
    cwd: place.root,
    env: jupyterEnvironment(key),
    stdio: ['pipe', log, log],
    // Its own process group: Ctrl-C in the terminal reaches us, and we stop it in good order.
    detached: !windows,
    windowsHide: true,
  });
  fs.closeSync(log);
  const ended = new Promise((resolve) => child.once('exit', resolve));
  child.once('error', () => {});
  child.stdin.on('error', () => {});
  const stop = () => stopServer(child, ended, base, headers);
  try {
    await waitUntilReady(child, base, headers, logFile);
  } catch (error) {
    await stop();
    throw error;
  }
  return {
    port,
    base,
    url: `${base}${place.page}?token=${key}`,
    token: key,
    pid: child.pid,
    ended,
    stop,
  };
}
