import { spawn, type ChildProcess } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import path from 'node:path';
import { ROOT } from './root.js';

async function freePort(): Promise<number> {
  const server = net.createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as net.AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
}

/** Every cell in the page, not only those in sight, and no questions asked of the reader. */
function writeSettings(folder: string): void {
  const settings: Record<string, object> = {
    'notebook-extension/tracker': { windowingMode: 'none' },
    'apputils-extension/notification': { fetchNews: 'false', checkForUpdates: false },
  };
  for (const [name, value] of Object.entries(settings)) {
    const file = path.join(folder, `${name}.jupyterlab-settings`);
    fs.mkdirSync(path.dirname(file), { recursive: true });
    fs.writeFileSync(file, JSON.stringify(value));
  }
}

async function end(child: ChildProcess): Promise<void> {
  const running = () => child.exitCode === null && child.signalCode === null;
  if (!running()) return;
  const ended = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGTERM');
  await Promise.race([ended, new Promise((resolve) => setTimeout(resolve, 10_000))]);
  if (running()) child.kill('SIGKILL');
}

/** Where a JupyterLab for tests answers. */
export interface LabAddress {
  readonly base: string;
  readonly token: string;
  /** The folder that it serves. */
  readonly root: string;
}

/**
 * Starts the JupyterLab of .env with our extension freshly built from the sources and settings of its own, everything
 * below `home`. It ends with the program that started it, even if that is killed: serve.py watches its input.
 */
export async function startLabServer(
  home: string,
): Promise<{ address: LabAddress; stop(): Promise<void> }> {
  const python = path.join(ROOT, '.env', 'bin', 'python');
  if (!fs.existsSync(python)) throw new Error('no Python environment in .env: run npm test once');
  const root = path.join(home, 'work');
  fs.mkdirSync(root, { recursive: true });
  const { buildLab } = (await import(path.join(ROOT, 'src', 'lab', 'build.mjs'))) as {
    buildLab(options: { outdir: string }): Promise<unknown>;
  };
  const extensions = path.join(home, 'labextensions');
  await buildLab({ outdir: path.join(extensions, 'cocked-hat') });
  writeSettings(path.join(home, 'config', 'lab', 'user-settings', '@jupyterlab'));
  const port = await freePort();
  const token = 'test';
  const args = [
    path.join(ROOT, 'src', 'cli', 'bootstrap', 'serve.py'),
    '--no-browser',
    '-y',
    '--allow-root',
    '--ServerApp.ip=127.0.0.1',
    `--ServerApp.port=${port}`,
    `--ServerApp.root_dir=${root}`,
    `--IdentityProvider.token=${token}`,
    `--LabApp.extra_labextensions_path=${extensions}`,
    '--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate',
    '--LabApp.news_url=None',
    '--LabApp.expose_app_in_browser=True',
    '--LabApp.extension_manager=readonly',
  ];
  const logFile = path.join(home, 'log.txt');
  const log = fs.openSync(logFile, 'w');
  const child = spawn(python, args, {
    cwd: root,
    stdio: ['pipe', log, log],
    env: {
      ...process.env,
      JUPYTER_PREFER_ENV_PATH: '1',
      JUPYTER_CONFIG_DIR: path.join(home, 'config'),
      JUPYTER_DATA_DIR: path.join(home, 'data'),
      JUPYTER_RUNTIME_DIR: path.join(home, 'runtime'),
      IPYTHONDIR: path.join(home, 'ipython'),
    },
  });
  fs.closeSync(log);
  const base = `http://127.0.0.1:${port}`;
  const latest = Date.now() + 90_000;
  for (;;) {
    const answer = await fetch(`${base}/api?token=${token}`).catch(() => undefined);
    if (answer?.ok) break;
    if (child.exitCode !== null || Date.now() > latest) {
      await end(child);
      throw new Error(`JupyterLab did not start: ${fs.readFileSync(logFile, 'utf8').slice(-2000)}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  return { address: { base, token, root }, stop: () => end(child) };
}
