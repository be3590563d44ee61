import fs from 'node:fs';
import http from 'node:http';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Sandbox } from '../../src/publish/index.js';
import { codeCache } from '../../src/publish/sandbox/code-cache.js';
import { v8Flags } from '../../src/publish/sandbox/permissions.js';

let home: string;
let folder: string;
beforeAll(() => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'sandbox-'));
  folder = path.join(home, 'returned');
  fs.mkdirSync(folder);
  fs.writeFileSync(path.join(folder, 'own.txt'), 'mine');
  fs.writeFileSync(path.join(home, 'key.txt'), 'the key');
});
afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

/** Runs one cell and returns its outcome as text. */
async function outcome(code: string, options: object = {}): Promise<string> {
  const sandbox = new Sandbox({ folder, ...options });
  try {
    const { outcome: out } = await sandbox.run('c', 'In[1]', code);
    return out.status === 'ok'
      ? `ok: ${String(out.result?.data['text/plain'] ?? '')}`
      : `${out.error.ename}: ${out.error.evalue}`;
  } finally {
    sandbox.end();
  }
}

describe('the process that runs returned cells', () => {
  it('computes with the library', async () => {
    expect(await outcome(`import { angle } from 'cocked-hat';\nangle('41°18.6′').degrees`)).toBe(
      'ok: 41.31',
    );
  });
  it('shows the tables of arquero that the library makes, and answers to the API of tslab', async () => {
    expect(
      await outcome(
        `import { ColumnTable } from 'arquero';\nimport { SightLog } from 'cocked-hat';\nSightLog.prototype instanceof ColumnTable`,
      ),
    ).toBe('ok: true');
    const sandbox = new Sandbox({ folder });
    const { events } = await sandbox.run(
      'c',
      'In[1]',
      `import { display } from 'tslab';\ndisplay.html('<b>dawn</b>')`,
    );
    sandbox.end();
    expect(events).toMatchObject([{ type: 'display', data: { 'text/html': '<b>dawn</b>' } }]);
  });
  it('imports no file beside the notebook, and says what to do', async () => {
    fs.writeFileSync(path.join(folder, 'help.ts'), 'export const a: number = 1;');
    expect(await outcome(`import { a } from './help.ts';\na`)).toMatch(
      /'\.\/help\.ts' is a file beside the notebook.*write what it holds into a cell/,
    );
  });
  it('tells of an error in lines of cells, without folders of the machine it ran on', async () => {
    const sandbox = new Sandbox({ folder });
    const { outcome: out } = await sandbox.run(
      'c',
      'In[1]',
      `import { angle } from 'cocked-hat';\nangle('41°xx')`,
    );
    sandbox.end();
    const text = out.status === 'error' ? out.error.traceback.join('\n') : '';
    expect(text).toContain('In[1]:2:1');
    expect(text).not.toMatch(/dist|node_modules|file:/);
  });
  it('reads its own folder', async () => {
    expect(
      await outcome(`import fs from 'node:fs';\nfs.readFileSync('own.txt', 'utf8')`),
    ).toContain('mine');
  });
  it.each([
    [
      'reads no other folder',
      `(await import('node:fs')).readFileSync(${'`'}../key.txt${'`'}, 'utf8')`,
    ],
    ['reads no user list', `(await import('node:fs')).readFileSync('/etc/passwd', 'utf8')`],
    ['writes nowhere', `(await import('node:fs')).writeFileSync('own.txt', 'changed')`],
    ['takes nothing away', `(await import('node:fs')).rmSync('own.txt')`],
    ['starts no program', `(await import('node:child_process')).execSync('echo hello').toString()`],
    ['starts no worker', `new (await import('node:worker_threads')).Worker('1', { eval: true })`],
    ['asks the system for nothing', `process.binding('spawn_sync')`],
  ])('%s', async (_what, code) => {
    expect(await outcome(code)).toMatch(
      /ERR_ACCESS_DENIED|permission|restricted|process\.binding/i,
    );
    expect(fs.readFileSync(path.join(folder, 'own.txt'), 'utf8')).toBe('mine');
  });
  it('is stopped when a cell does not end', async () => {
    expect(await outcome('for (;;);', { timeoutMs: 1500 })).toBe(
      'Stopped: the cell did not end within 1.5 s',
    );
  });
  it.skipIf(process.platform === 'win32')(
    'is stopped by the system after its time on the processor, for which nobody need be watching',
    async () => {
      expect(await outcome('for (;;);', { processorSeconds: 1 })).toBe(
        'Stopped: the cells used more time on the processor than they have',
      );
    },
  );
  it('takes up the program as V8 compiled it, and runs it from its text where that cannot be used', async () => {
    const file = codeCache(path.resolve('dist'), v8Flags(256)) ?? '';
    const made = fs.readFileSync(file);
    const argv = `process.argv[process.argv.indexOf('--code') + 1]`;
    expect(await outcome(argv)).toBe(`ok: '${file}'`);
    try {
      fs.writeFileSync(file, made.subarray(0, 5000));
      expect(await outcome('6 * 7')).toBe('ok: 42');
    } finally {
      fs.writeFileSync(file, made);
    }
  });
  it('is stopped when a cell eats the memory', async () => {
    const text = await outcome(
      'const a = []; for (;;) a.push(new Array(1e5).fill(Math.random()));',
      { memoryMb: 64 },
    );
    expect(text).toMatch(
      /Stopped: the cells used more than 64 MB|Stopped: the process that ran the cell ended/,
    );
  });
  it('is stopped when a cell floods its output', async () => {
    const flood = `for (;;) console.log('x'.repeat(1e5));`;
    expect(await outcome(flood, { timeoutMs: 3000 })).toMatch(/printed more than 5 MB|did not end/);
  });
  it('knows nothing of the environment it was started from', async () => {
    process.env['COCKED_HAT_TEST_SECRET'] = 'hidden';
    expect(await outcome('JSON.stringify(process.env)')).not.toContain('hidden');
  });
  it('can still use the network, which is said in the manual and not hidden', async () => {
    const server = http.createServer((_q, a) => a.end('reached')).listen(0, '127.0.0.1');
    await new Promise((resolve) => server.once('listening', resolve));
    const { port } = server.address() as { port: number };
    const text = await outcome(`await (await fetch('http://127.0.0.1:${port}/')).text()`);
    server.close();
    expect(text).toContain('reached');
  });
});
