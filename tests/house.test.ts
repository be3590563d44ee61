/** The order of the house: what may lie at the top, and how long a file may be. */
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROOT } from '../src/cli/bootstrap/paths.mjs';

/** What a newcomer meets first; besides these only files whose names begin with a dot. */
const AT_THE_TOP = [
  ...['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', 'LICENSE', 'NOTICE'],
  ...['src', 'notebooks', 'tests', 'data'],
  ...['package.json', 'package-lock.json', 'eslint.config.js', 'vitest.config.ts'],
  ...['tsconfig.json', 'tsconfig.core.json', 'tsconfig.types.json'],
  // made by set-up and never committed
  ...['node_modules', 'dist', 'coverage'],
];

const MOST_LINES = 300;
/** Longer files, each with its reason and the length that it may not pass. */
const LONGER: Readonly<Record<string, { readonly lines: number; readonly why: string }>> = {
  'src/core/fix/slips.ts': {
    lines: 320,
    why: 'scores for one sight and for a round share their small helpers and are read together',
  },
  'src/log/sight-log.ts': {
    lines: 340,
    why: 'one class whose methods only delegate; arquero needs it whole',
  },
  'src/lab/render/css/frame.css': {
    lines: 330,
    why: 'the frame that all views share: order of rules matters, so they stay in one sheet',
  },
};

const SOURCES = fs
  .readdirSync(path.join(ROOT, 'src'), { recursive: true, encoding: 'utf8' })
  .map((file) => path.posix.join('src', file.split(path.sep).join('/')))
  .filter((file) => /\.(ts|mjs|py|css)$/.test(file));

describe('the house', () => {
  it('has nothing astray at the top', () => {
    const there = fs.readdirSync(ROOT).filter((name) => !name.startsWith('.'));
    expect(there.filter((name) => !AT_THE_TOP.includes(name))).toEqual([]);
  });

  it(`has no source file over ${MOST_LINES} lines, but for those with a reason`, () => {
    expect(SOURCES.length).toBeGreaterThan(400);
    const tooLong = SOURCES.flatMap((file) => {
      const lines = fs.readFileSync(path.join(ROOT, file), 'utf8').split('\n').length - 1;
      return lines > (LONGER[file]?.lines ?? MOST_LINES) ? [`${file}: ${lines} lines`] : [];
    });
    expect(tooLong).toEqual([]);
  });

  it('excuses only files that are there', () => {
    for (const file of Object.keys(LONGER)) expect(SOURCES).toContain(file);
  });

  it('names in NOTICE every package that the code imports', () => {
    const notice = fs.readFileSync(path.join(ROOT, 'NOTICE'), 'utf8');
    // what only builds (…/build.mjs, bootstrap, the reference) or only lends types ships nowhere
    const shipping = SOURCES.filter(
      (file) => file.endsWith('.ts') && !file.startsWith('src/cli/bootstrap/'),
    );
    const imported = new Set(
      shipping.flatMap((file) =>
        [
          ...fs
            .readFileSync(path.join(ROOT, file), 'utf8')
            .matchAll(
              /^(?:import|export) (?!type )[^;]*?from '((?:@[a-z-]+\/)?[a-z][a-z.-]*)(?:\/[^']*)?';/gm,
            ),
        ].map((found) => found[1]!),
      ),
    );
    for (const own of ['cocked-hat', 'esbuild', '@jupyterlab/rendermime-interfaces'])
      imported.delete(own);
    expect(imported.size).toBeGreaterThan(20);
    expect([...imported].filter((name) => !notice.toLowerCase().includes(name))).toEqual([]);
  });
});
