/** What cells are told of `display` is what `display` is: the two stand apart because one is text. */
import ts from 'typescript';
import { expect, test } from 'vitest';
import { GLOBALS_DECLARATION, makeDisplay, type CellHost } from '../../src/cells/index.js';
import { ROOT } from '../../src/cli/bootstrap/paths.mjs';
import path from 'node:path';

const told = path.join(ROOT, 'src/cells/told-to-cells.d.ts');
const both = path.join(ROOT, 'src/cells/display-both.ts');

/** Complaints of a file that stands between the two sides. */
function complaints(text: string): string[] {
  const files = new Map([
    [told, GLOBALS_DECLARATION],
    [both, text],
  ]);
  const options: ts.CompilerOptions = {
    strict: true,
    noEmit: true,
    skipLibCheck: true,
    target: ts.ScriptTarget.ES2022,
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Bundler,
    lib: ['lib.es2022.d.ts'],
    types: ['node'],
  };
  const host = ts.createCompilerHost(options);
  const { readFile, fileExists, getSourceFile } = host;
  host.fileExists = (file) => files.has(file) || fileExists.call(host, file);
  host.readFile = (file) => files.get(file) ?? readFile.call(host, file);
  host.getSourceFile = (file, target, ...rest) => {
    const own = files.get(file);
    return own === undefined
      ? getSourceFile.call(host, file, target, ...rest)
      : ts.createSourceFile(file, own, target);
  };
  const program = ts.createProgram([told, both], options, host);
  return [told, both]
    .flatMap((file) => ts.getPreEmitDiagnostics(program, program.getSourceFile(file)))
    .map((d) => ts.flattenDiagnosticMessageText(d.messageText, ' '));
}

/** Each member of the one, as the other has it, in both directions. */
const MEMBERS = `
import type { Display } from './session/display.js';
type Told = typeof display;
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : false) : false;
type Call<F> = F extends (...args: infer A) => infer R ? [A, R] : never;
`;

test('cells are told of each member of display, with its arguments', () => {
  expect(
    complaints(`${MEMBERS}
      export const names: Same<keyof Told, keyof Display> = true;
      export const call: Same<Call<Told>[1], Call<Display>[1]> = true;
      export const length: Same<Call<Told>[0]['length'], Call<Display>[0]['length']> = true;
      export const members: { [K in keyof Display]: Same<Call<Told[K]>[0]['length'], Call<Display[K]>[0]['length']> } extends Record<keyof Display, true> ? true : false = true;
      declare const real: Display;
      export const asTold: Told = real;
      export const asReal: Display = display;
    `),
  ).toEqual([]);
}, 60_000);

test('a member that only one of them has is found', () => {
  const found = complaints(`${MEMBERS}
    type More = Display & { sound(bytes: Uint8Array): void };
    export const names: Same<keyof Told, keyof More> = true;`);
  expect(found).toEqual([expect.stringContaining("Type 'true' is not assignable to type 'false'")]);
}, 60_000);

test('display has at run time what cells are told', () => {
  const host = { emit: () => undefined, currentRun: () => undefined } as unknown as CellHost;
  const members = [...GLOBALS_DECLARATION.matchAll(/^  (\w+)\(/gm)].map((m) => m[1] ?? '');
  const named = members.filter((name) => name !== 'password');
  expect(Object.keys(makeDisplay(host)).sort()).toEqual(named.sort());
});
