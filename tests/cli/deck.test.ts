import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { runCommandLine } from '../../src/cli/cli.js';
import { COMMANDS } from '../../src/cli/commands/index.js';
import { recordedTerminal } from './recorded-terminal.js';

let home: string;
beforeAll(() => (home = fs.mkdtempSync(path.join(os.tmpdir(), 'deck-command-'))));
afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

async function deck(...words: string[]) {
  const recorded = recordedTerminal();
  const code = await runCommandLine(['deck', ...words], COMMANDS, recorded.terminal);
  return { code, said: recorded.output(), errors: recorded.errors() };
}

it('deck writes one page that may fetch nothing, into a file or a folder', async () => {
  for (const out of [path.join(home, 'sheet.html'), home]) {
    const { code, said } = await deck('-o', out);
    expect(code).toBe(0);
    const file = out === home ? path.join(home, 'deck-sheet.html') : out;
    expect(said).toContain(file);
    const page = fs.readFileSync(file, 'utf8');
    expect(page).toContain("default-src 'none'");
    expect(page).not.toMatch(/\b(?:src|href)="(?!data:)/);
  }
});

it('deck says what to do where it cannot write', async () => {
  const { code, errors } = await deck('-o', path.join(home, 'absent', 'sheet.html'));
  expect(code).toBe(1);
  expect(errors).toContain('sheet.html cannot be written: there is no such file or folder');
  expect(errors).toContain('make the folder first');
  expect(errors).not.toContain('ENOENT');
  expect((await deck('sheet.html')).code).toBe(2);
});
