import { describe, expect, it } from 'vitest';
import { runCommandLine } from '../../src/cli/cli.js';
import type { Command } from '../../src/cli/command.js';
import { COMMANDS } from '../../src/cli/commands/index.js';
import { JobError, UsageError } from '../../src/cli/errors.js';
import { fileFailure } from '../../src/cli/file-failure.js';
import { recordedTerminal } from './recorded-terminal.js';

/** A command that ends as its only option says. */
const probe: Command = {
  name: 'probe',
  summary: 'end as asked',
  help: 'Usage: cocked-hat probe --end HOW',
  options: { end: { type: 'string' }, quiet: { type: 'boolean' } },
  run: async ({ values }) => {
    if (values['end'] === 'usage') throw new UsageError('--end usage is not good');
    if (values['end'] === 'job') throw new JobError('the lamp went out', 'trim the wick');
    if (values['end'] === 'crash') throw new TypeError('x is undefined');
    return values['end'] === 'bad' ? 1 : 0;
  },
};

async function call(...args: string[]) {
  const recorded = recordedTerminal();
  const code = await runCommandLine(args, [...COMMANDS, probe], recorded.terminal);
  return { code, output: recorded.output(), errors: recorded.errors() };
}

describe('the command line', () => {
  it('shows its help and exit code 2 when nothing was asked', async () => {
    const { code, output, errors } = await call();
    expect(code).toBe(2);
    expect(output).toBe('');
    expect(errors).toContain('Usage: cocked-hat COMMAND');
  });

  it.each([['--help'], ['-h'], ['help']])('lists every command for %s', async (word) => {
    const { code, output } = await call(word);
    expect(code).toBe(0);
    for (const { name, summary } of COMMANDS) {
      expect(output).toContain(name);
      expect(output).toContain(summary);
    }
  });

  it('prints the version of package.json', async () => {
    const { output } = await call('--version');
    expect(output).toMatch(/^\d+\.\d+\.\d+$/);
  });

  it.each(COMMANDS.map(({ name }) => name))('explains %s with usage and examples', async (name) => {
    for (const words of [
      [name, '--help'],
      [name, '-h'],
      ['help', name],
    ]) {
      const { code, output } = await call(...words);
      expect(code).toBe(0);
      expect(output).toMatch(new RegExp(`^Usage: cocked-hat ${name}`));
      expect(output).toMatch(/^Examples?\n {2}cocked-hat /m);
    }
  });

  it('keeps every line of help within 100 columns', async () => {
    for (const { help } of COMMANDS)
      for (const line of help.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });

  it('returns the code of the command', async () => {
    expect((await call('probe')).code).toBe(0);
    expect((await call('probe', '--end', 'bad')).code).toBe(1);
  });

  it('names an unknown command, the likely one, and the way to help', async () => {
    const { code, errors } = await call('docter');
    expect(code).toBe(2);
    expect(errors).toBe(
      'There is no command "docter"; did you mean "doctor"?\ncocked-hat --help shows the right form.',
    );
  });

  it('lists the commands when nothing is near the unknown one', async () => {
    expect((await call('zzzzzz')).errors).toContain('the commands are open, ');
  });

  it('names an unknown option and the likely one', async () => {
    const { code, errors } = await call('probe', '--quite');
    expect(code).toBe(2);
    expect(errors).toContain('There is no option --quite; did you mean --quiet?');
    expect(errors).toContain('cocked-hat probe --help');
  });

  it('says when an option lacks its value or has one too many', async () => {
    expect((await call('probe', '--end')).errors).toContain('--end needs a value after it');
    expect((await call('probe', '--quiet=1')).errors).toContain('--quiet stands alone');
  });

  it('refuses an unknown option before a command', async () => {
    const { code, errors } = await call('--loud');
    expect(code).toBe(2);
    expect(errors).toContain('There is no option --loud before a command.');
  });
});

describe('errors on the command line', () => {
  it('end with code 2 and the way to help for wrong usage', async () => {
    const { code, errors } = await call('probe', '--end', 'usage');
    expect(code).toBe(2);
    expect(errors).toContain('--end usage is not good');
  });

  it('end with code 1 and what to do for a failed job', async () => {
    const { code, errors } = await call('probe', '--end', 'job');
    expect(code).toBe(1);
    expect(errors).toBe('the lamp went out\nWhat to do: trim the wick');
  });

  it('show no stack trace unless asked', async () => {
    const plain = await call('probe', '--end', 'crash');
    expect(plain.code).toBe(1);
    expect(plain.errors).toContain('Unexpected failure: x is undefined');
    expect(plain.errors).not.toMatch(/^ +at /m);
    expect((await call('probe', '--end', 'crash', '--trace')).errors).toMatch(/^ +at /m);
    expect((await call('--trace', 'probe', '--end', 'job')).errors).toMatch(/^ +at /m);
  });
});

describe('a file that cannot be read or written', () => {
  const failure = (system: object) => fileFailure(Object.assign(new Error('E…'), system));

  it.each([
    [
      { code: 'EACCES', syscall: 'open', path: 'a/b.ipynb' },
      /^a\/b\.ipynb cannot be read: this account/,
    ],
    [
      { code: 'EACCES', syscall: 'open', path: 'a/b.ipynb.part' },
      /^a cannot be written: this account/,
    ],
    [{ code: 'EACCES', syscall: 'open', path: 'b.ipynb.part' }, /^This folder cannot be written/],
    [
      { code: 'EROFS', syscall: 'mkdir', path: '/c/.x.part-9-2c' },
      /^\/c cannot be written: the disk can only/,
    ],
    [
      { code: 'ENOSPC', syscall: 'open', path: 'c/.x.part-9-2c/s/l.html' },
      /^c cannot be written: the disk is full/,
    ],
    [{ code: 'ENOSPC', syscall: 'write' }, /^The file cannot be written: the disk is full/],
    [
      { code: 'ENOENT', syscall: 'copyfile', path: 'in', dest: 'd/out' },
      /^d\/out cannot be written: there is no/,
    ],
  ])('%o is told in words, with a remedy', (system, said) => {
    const told = failure(system);
    expect(told).toBeInstanceOf(JobError);
    expect((told as JobError).message).toMatch(said);
    expect((told as JobError).remedy).not.toBe('');
  });

  it('leaves every other failure as it is', () => {
    for (const other of [new TypeError('x'), Object.assign(new Error('x'), { code: 'EPIPE' }), 'x'])
      expect(fileFailure(other)).toBe(other);
  });

  it('says of a folder that it is one, and of doctor that it takes no words', async () => {
    const folder = await call('reproduce', 'tests');
    expect([folder.code, folder.errors]).toEqual([2, expect.stringContaining('tests is a folder')]);
    expect((await call('doctor', 'please')).code).toBe(2);
  });
});
