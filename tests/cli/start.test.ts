/** Starts JupyterLab as a user does and stops it in each of the ways in which it may end. */
import { type ChildProcess, spawn } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { ROOT } from '../../src/cli/bootstrap/paths.mjs';
import { descendants, endTree, isAlive } from '../../src/cli/bootstrap/process-tree.mjs';

const TOKEN = 'only-for-this-test';
const START_MS = 60_000;

/** A port that was free a moment ago. */
async function freePort(): Promise<number> {
  const probe = net.createServer();
  await new Promise<void>((resolve) => probe.listen(0, '127.0.0.1', resolve));
  const { port } = probe.address() as net.AddressInfo;
  await new Promise((resolve) => probe.close(resolve));
  return port;
}

let child: ChildProcess | undefined;
let family: number[] = [];

afterEach(() => {
  for (const pid of family.filter(isAlive)) endTree(pid);
  if (child?.pid && isAlive(child.pid)) endTree(child.pid);
});

interface Started {
  readonly printed: () => string;
  readonly exit: Promise<number | null>;
  readonly port: number;
}

async function start(command: string, ...args: string[]): Promise<Started> {
  const port = await freePort();
  const env = { ...process.env, JUPYTER_TOKEN: TOKEN };
  const words = [...args, '--no-browser', '--port', String(port)];
  child = spawn(command, words, { cwd: ROOT, env, stdio: ['ignore', 'pipe', 'pipe'] });
  let text = '';
  child.stdout!.on('data', (chunk) => (text += chunk));
  child.stderr!.on('data', (chunk) => (text += chunk));
  const exit = new Promise<number | null>((resolve) => child!.once('close', resolve));
  const address = new RegExp(`http://127\\.0\\.0\\.1:${port}/lab\\S*\\?token=${TOKEN}`);
  const ended = exit.then((code) => {
    if (!address.test(text)) throw new Error(`it ended with ${code} while starting:\n${text}`);
  });
  const printed = expect.poll(() => text, { timeout: START_MS, interval: 100 });
  await Promise.race([printed.toMatch(address), ended]);
  family = [child.pid!, ...descendants(child.pid!)];
  return { printed: () => text, exit, port };
}

function ask(port: number, what: string, init: RequestInit = {}): Promise<Response> {
  const headers = { authorization: `token ${TOKEN}` };
  return fetch(`http://127.0.0.1:${port}/api/${what}`, { ...init, headers });
}

/** What a Linux process was started with. */
function environmentOf(pid: number): Record<string, string> {
  try {
    const pairs = fs.readFileSync(`/proc/${pid}/environ`, 'utf8').split('\0');
    return Object.fromEntries(pairs.map((pair) => pair.split(/=(.*)/s).slice(0, 2)));
  } catch {
    return {};
  }
}

async function noneLeft() {
  await expect.poll(() => family.filter(isAlive), { timeout: 60_000 }).toEqual([]);
}

describe('npm start', () => {
  it('offers our kernel, runs it, and a stop signal leaves no process behind', async () => {
    const { printed, exit, port } = await start('npm', 'start', '--');
    const { kernelspecs, default: standard } = (await (await ask(port, 'kernelspecs')).json()) as {
      kernelspecs: Record<string, { spec: { display_name: string; language: string } }>;
      default: string;
    };
    expect(kernelspecs['cocked-hat']?.spec.display_name).toBe('TypeScript · Cocked Hat');
    const news = await ask(port, '../lab/api/settings/@jupyterlab/apputils-extension:notification');
    // Else JupyterLab's first screen asks whether it may fetch news.
    expect(((await news.json()) as { schema: object }).schema).toMatchObject({
      properties: { fetchNews: { default: 'false' }, checkForUpdates: { default: false } },
    });
    expect(kernelspecs['cocked-hat']?.spec.language).toBe('typescript');
    expect(standard).toBe('cocked-hat');
    const body = JSON.stringify({ name: 'cocked-hat' });
    const kernel = await ask(port, 'kernels', { method: 'POST', body });
    expect(kernel.status).toBe(201);
    family = [child!.pid!, ...descendants(child!.pid!)];
    expect(family.length).toBeGreaterThanOrEqual(4);
    child!.kill('SIGTERM');
    await exit;
    await noneLeft();
    expect(printed()).toContain('Stopped.');
  });
});

describe('start.mjs', () => {
  const script = path.join('src', 'cli', 'bootstrap', 'start.mjs');

  it('ends with code 0 on Ctrl-C, everything gone', async () => {
    const { printed, exit } = await start(process.execPath, script);
    child!.kill('SIGINT');
    expect(await exit).toBe(0);
    await noneLeft();
    expect(printed()).toContain('Stopping JupyterLab (Ctrl-C)');
  });

  it('takes JupyterLab with it even when it is killed', async () => {
    await start(process.execPath, script);
    child!.kill('SIGKILL');
    await noneLeft();
  });

  it('ends when JupyterLab is shut down from the page', async () => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'own-folder-'));
    const { printed, exit, port } = await start(process.execPath, script, folder);
    // A terminal begins in the folder that is shown, and knows the command there.
    expect((await ask(port, 'terminals', { method: 'POST' })).status).toBe(200);
    if (process.platform === 'linux') {
      const [shell] = descendants(child!.pid!).filter(
        (pid) => environmentOf(pid)['JUPYTER_SERVER_ROOT'],
      );
      expect(fs.readlinkSync(`/proc/${shell}/cwd`)).toBe(fs.realpathSync(folder));
      // The login shell gives way to env, and env to the shell in which the user types: only that one
      // has our command, behind all that the login shell set up.
      const last = () => environmentOf(shell!)['PATH']?.split(path.delimiter).at(-1) ?? '';
      const known = () => fs.existsSync(path.join(last(), 'cocked-hat'));
      await expect.poll(known, { timeout: START_MS }).toBe(true);
    }
    fs.rmSync(folder, { recursive: true });
    await ask(port, 'shutdown', { method: 'POST' });
    expect(await exit).toBe(0);
    await noneLeft();
    expect(printed()).toContain('JupyterLab was shut down.');
  });
});

/** Runs a script of the checkout to its end; `text` is all that it prints. */
const runScript = (file: string, ...args: string[]) =>
  new Promise<{ code: number | null; text: string }>((resolve) => {
    const program = spawn(process.execPath, [path.join(ROOT, file), ...args], { cwd: ROOT });
    let text = '';
    for (const stream of [program.stdout, program.stderr])
      stream.on('data', (chunk) => (text += chunk));
    program.once('close', (code) => resolve({ code, text }));
  });

describe('the other commands of package.json', () => {
  const COMMANDS: readonly (readonly [name: string, file: string])[] = [
    ['build', 'src/cli/bootstrap/build.mjs'],
    ['fresh', 'src/cli/bootstrap/fresh.mjs'],
    ['guide', 'src/guide/run.mjs'],
    ['accuracy', 'tests/published/run-accuracy.mjs'],
    ['bench', 'tests/bench/run.mjs'],
    ['calibration', 'tests/bench/calibration.mjs'],
    ['slips', 'tests/bench/slips.mjs'],
    ['report', 'tests/bench/report/run.mjs'],
    ['class', 'tests/class/run.mjs'],
  ];
  it.each(COMMANDS)('%s says how it is used, and does nothing else', async (name, file) => {
    const { code, text } = await runScript(file, '--help');
    expect([code, text.split('\n')[0]]).toEqual([0, expect.stringMatching(`^npm run ${name}\\b`)]);
  });
  it.each(COMMANDS)('%s ends with code 2 at a word that it does not know', async (name, file) => {
    const { code, text } = await runScript(file, '--no-such-word');
    expect(code).toBe(2);
    expect(text).toContain(`Unknown option '--no-such-word'.\n\nnpm run ${name}`);
    expect(text).not.toMatch(/^ +at /m);
  });
});

describe('wrong usage of start.mjs', () => {
  const run = (...args: string[]) => runScript('src/cli/bootstrap/start.mjs', ...args);

  it.each([
    [['--port', 'seven'], '--port seven: a port is a whole number from 1 to 65535'],
    [['--port', '70000'], '--port 70000'],
    [['notebooks/none.ipynb'], 'There is no file or folder notebooks/none.ipynb'],
    [['--prot', '1'], "Unknown option '--prot'"],
  ])('%j ends with code 2 and says why', async (args, message) => {
    const { code, text } = await run(...args);
    expect(code).toBe(2);
    expect(text).toContain(message);
    expect(text).not.toMatch(/^ +at /m);
  });

  it('a port in use is named together with a way out', async () => {
    const server = net.createServer();
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const { port } = server.address() as net.AddressInfo;
    try {
      const { code, text } = await run('--no-browser', '--port', String(port));
      expect(code).toBe(1);
      expect(text).toContain(`port ${port} is in use`);
      expect(text).toContain(`--port ${port + 1}`);
    } finally {
      server.close();
    }
  });
});
