/** The real JupyterHub with the settings of the guide: two users run our kernel side by side, a cell each, states apart. */
import assert from 'node:assert/strict';
import { execFile, spawn } from 'node:child_process';
import { randomBytes, scryptSync } from 'node:crypto';
import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { environment, fromGuide, program, proxyCommand } from './class-env.mjs';

const CLIENT = path.join(import.meta.dirname, 'hub_client.py');
const PASSWORDS = { ana: 'forenoon sights', ben: 'evening twilight' };

async function freePort() {
  const server = net.createServer().listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  const { port } = server.address();
  await new Promise((resolve) => server.close(resolve));
  return port;
}

/** The guide's settings, and ports of this run after them; a container's tests run as root, which servers refuse untold. */
async function settings() {
  const [outside, hub, api] = [await freePort(), await freePort(), await freePort()];
  const text = [
    fromGuide('class-server.md', 'from hashlib import scrypt'),
    `c.JupyterHub.bind_url = 'http://127.0.0.1:${outside}'`,
    `c.JupyterHub.hub_port = ${hub}`,
    `c.ConfigurableHTTPProxy.api_url = 'http://127.0.0.1:${api}'`,
    `c.ConfigurableHTTPProxy.command = ['${proxyCommand}']`,
    ...(process.getuid?.() === 0 ? [`c.Spawner.args = ['--allow-root']`] : []),
  ];
  return { origin: `http://127.0.0.1:${outside}`, text: `${text.join('\n')}\n` };
}

const entry = ([name, password]) => {
  const salt = randomBytes(16);
  const hash = scryptSync(password, salt, 64, { N: 2 ** 14, r: 8, p: 1 });
  return [name, [salt.toString('hex'), hash.toString('hex')]];
};

async function answers(origin, hub, log) {
  for (const deadline = Date.now() + 120_000; Date.now() < deadline;) {
    if (hub.exitCode !== null) break;
    const ready = await fetch(`${origin}/hub/health`).then(
      (r) => r.ok,
      () => false,
    );
    if (ready) return;
    await new Promise((resolve) => setTimeout(resolve, 300));
  }
  throw new Error(`JupyterHub did not start:\n${fs.readFileSync(log, 'utf8').slice(-4000)}`);
}

export async function runHub() {
  const home = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-hub-'));
  const log = path.join(home, 'hub.log');
  fs.mkdirSync(path.join(home, 'homes'));
  const { origin, text } = await settings();
  fs.writeFileSync(path.join(home, 'jupyterhub_config.py'), text);
  const passwords = Object.fromEntries(Object.entries(PASSWORDS).map(entry));
  fs.writeFileSync(path.join(home, 'passwords.json'), JSON.stringify(passwords), { mode: 0o600 });
  const out = fs.openSync(log, 'w');
  const hub = spawn(program('jupyterhub'), [], {
    cwd: home,
    env: environment(home),
    stdio: ['ignore', out, out],
  });
  try {
    await answers(origin, hub, log);
    const words = [CLIENT, origin, JSON.stringify(PASSWORDS)];
    const { stdout } = await promisify(execFile)(program('python'), words, {
      env: environment(home),
    }).catch((error) => {
      throw new Error(`${error.message}\n${fs.readFileSync(log, 'utf8').slice(-4000)}`);
    });
    const told = JSON.parse(stdout);
    assert.deepEqual(told.refused, [403, 403]);
    assert.equal(told.ana, '41°18.6′');
    assert.match(told['unknown to ben'], /undefined/);
    assert.match(told.ben, /ben/);
    assert.match(told['ana after ben'], /ana/);
    assert.equal(new Set(told.folders).size, 2);
    assert.ok(told['strange server'] >= 400, 'the hub lets one user into the server of another');
    // What the guide warns of, so that nobody takes this spawner for more than it is.
    assert.match(
      told['read by the other'],
      /mine/,
      'the guide says that the spawner isolates nobody',
    );
    return 'two users, a kernel each, states apart; files not apart, as the guide says';
  } finally {
    // The hub ends its proxy and the users' servers when it is told to end.
    hub.kill('SIGTERM');
    if (hub.exitCode === null) await new Promise((resolve) => hub.once('exit', resolve));
    fs.rmSync(home, { recursive: true, force: true });
  }
}
