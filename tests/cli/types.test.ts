import { createRequire } from 'node:module';
import path from 'node:path';
import type typescript from 'typescript';
import { describe, expect, it } from 'vitest';
import { ROOT } from '../../src/cli/bootstrap/paths.mjs';

const require = createRequire(import.meta.url);
/** The copy of TypeScript inside the kernel's type engine; older than the one that builds us. */
const ts = require('@tslab/typescript-for-tslab') as typeof typescript;

/**
 * Complaints of that copy about a program in the notebooks' folder that imports our built declarations, and about
 * those declarations; what it finds wrong in other packages' declarations is not ours to mend.
 */
function complaints(text: string): string[] {
  const file = path.join(ROOT, 'notebooks', 'probe.ts');
  const options = {
    strict: true,
    noEmit: true,
    target: ts.ScriptTarget.ES2020,
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Node10,
    paths: { 'cocked-hat': [path.join(ROOT, 'dist', 'types', 'index.d.ts')] },
    types: [],
  };
  const host = ts.createCompilerHost(options);
  const read = host.getSourceFile;
  host.getSourceFile = (name, languageVersion, ...rest) =>
    name === file
      ? ts.createSourceFile(name, text, languageVersion)
      : read(name, languageVersion, ...rest);
  const program = ts.createProgram([file], options, host);
  const ours = ts
    .getPreEmitDiagnostics(program)
    .filter(({ file: at }) => !at?.fileName.includes('/node_modules/'));
  return ours.map(({ file: at, messageText }) => {
    const where = at ? `${path.relative(ROOT, at.fileName)}: ` : '';
    return where + ts.flattenDiagnosticMessageText(messageText, '\n');
  });
}

describe('the built type declarations', () => {
  it('are read without complaint by TypeScript 5.0.4, which the kernel embeds', () => {
    expect(ts.version).toBe('5.0.4');
    expect(complaints(`import * as everything from 'cocked-hat'; everything;`)).toEqual([]);
  });

  it('carry real types: a misuse of angle is found', () => {
    const found = complaints(`import { angle } from 'cocked-hat'; const a: number = angle('1°');`);
    expect(found.join()).toMatch(/not assignable to type 'number'/);
  });
});
