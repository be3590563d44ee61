/** What cells are told of `display` is what `display` is: the two stand apart because one is text. */
import ts from 'typescript';
import { expect, test } from 'vitest';
import { GLOBALS_DECLARATION, makeDisplay, type CellHost } from '../../src/cells/index.js';
import { compileCell } from '../../src/cells/compile/compile-cell.js';
import { NameLedger } from '../../src/cells/compile/name-ledger.js';
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
});

test('a member that only one of them has is found', () => {
  const found = complaints(`${MEMBERS}
    type More = Display & { sound(bytes: Uint8Array): void };
    export const names: Same<keyof Told, keyof More> = true;`);
  expect(found).toEqual([expect.stringContaining("Type 'true' is not assignable to type 'false'")]);
});

test('display has at run time what cells are told', () => {
  const host = { emit: () => undefined, currentRun: () => undefined } as unknown as CellHost;
  const members = [...GLOBALS_DECLARATION.matchAll(/^  (\w+)\(/gm)].map((m) => m[1] ?? '');
  const named = members.filter((name) => name !== 'password');
  expect(Object.keys(makeDisplay(host)).sort()).toEqual(named.sort());
});

/** Expressions of every kind that a sum can be made of, and of some that it cannot. */
function someSums(count: number): string[] {
  let state = 2026;
  // The generator of ANSI C's example, so that the expressions are the same in every run.
  const draw = (): number =>
    (state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff) / 2 ** 31;
  const pick = <T>(list: readonly T[]): T => list[Math.floor(draw() * list.length)] as T;
  const leaf = [
    '1',
    '2.5',
    '0x1f',
    '1_000',
    "'a'",
    '"b"',
    '`c`',
    'true',
    'null',
    '[1]',
    '{}',
    '7n',
  ];
  const make = (depth: number): string => {
    if (depth === 0 || draw() < 0.3) return pick(leaf);
    const [a, b] = [make(depth - 1), make(depth - 1)];
    const sum = `${a} ${pick(['+', '-', '*', '/', '%', '**', '===', '<', '&&'])} ${b}`;
    return pick([sum, `(${sum})`, `-${a}`, `!${a}`, `[${a}, ${b}]`, `\`\${${a}}x\``, sum, sum]);
  };
  return Array.from({ length: count }, () => make(3));
}

test('TypeScript has no complaint about a cell that is run without waiting for it', () => {
  const ledger = (): NameLedger => new NameLedger(() => false);
  const isPlain = (code: string): boolean => {
    try {
      return compileCell(code, ledger()).plainImports !== null;
    } catch {
      return false;
    }
  };
  const plain = someSums(4000).filter((code) => isPlain(code));
  expect(plain.length).toBeGreaterThan(300);
  expect(complaints(plain.map((code) => `;(${code});`).join('\n'))).toEqual([]);
  expect(
    ["'a' * 2", '1 === 2', '1 + true', '[1] + 1', '1n + 1', 'x', 'f()'].filter(isPlain),
  ).toEqual([]);
  expect(compileCell("import { angle } from 'cocked-hat'", ledger()).plainImports).toEqual([
    'angle',
  ]);
});
