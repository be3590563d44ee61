/** Parts of the debugger that need no kernel. */
import inspector from 'node:inspector/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { compileCell } from '../../src/cells/compile/compile-cell.js';
import { compileExpression } from '../../src/cells/compile/compile-expression.js';
import { NameLedger } from '../../src/cells/compile/name-ledger.js';
import { angle } from '../../src/core/index.js';
import { isInTry } from '../../src/kernel/debug/caught.js';
import { CellScript } from '../../src/kernel/debug/cell-script.js';
import { murmur2 } from '../../src/kernel/debug/murmur2.js';
import { partsOf, textOf } from '../../src/kernel/debug/value-parts.js';

test('the hash is MurmurHash2', () => {
  // Made with PyPI ipykernel 7.4.0, ipykernel.compiler.murmur2_x86(text, 0xc70f6907).
  const published = {
    '': 3990065800,
    a: 2167009006,
    'let x = 1': 719486033,
    '34°17.6′': 2192663356,
  };
  for (const [text, hash] of Object.entries(published))
    expect(murmur2(text, 0xc70f6907), text).toBe(hash);
});

describe('lines of a cell and places of its script', () => {
  // The places come from V8 of this Node, which is what the kernel asks.
  const session = new inspector.Session();
  let lastId = '';

  beforeAll(async () => {
    session.connect();
    session.on('Debugger.scriptParsed', ({ params }) => (lastId = params.scriptId));
    await session.post('Debugger.enable');
  });
  afterAll(() => session.disconnect());

  async function linesOf(source: string): Promise<number[]> {
    const { js, map } = compileCell(source, new NameLedger(() => false));
    const expression = `${js}\n//# sourceURL=cell:lines`;
    await session.post('Runtime.evaluate', { expression });
    const start = { scriptId: lastId, lineNumber: 0, columnNumber: 0 };
    const { locations } = await session.post('Debugger.getPossibleBreakpoints', { start });
    const cell = new CellScript(js, map.mappings());
    return source.split('\n').map((_, i) => cell.stopFor(i + 1, locations)?.line ?? 0);
  }

  test.each([
    ['each statement has its own line', 'let a = 1;\na += 1;\na', [1, 2, 3]],
    ['comments and types go to the next line', '// c\ntype T = 1;\nlet a = 1', [3, 3, 3]],
    ['imports keep their line', 'let a = 1;\nimport fs from "node:fs";\na', [1, 2, 3]],
    [
      'functions keep their lines where the compiler moves them to the top',
      'let a = 1;\nfunction f(x: number) {\n  a += x;\n  return a;\n}\nf(2);',
      [1, 3, 3, 4, 6, 6],
    ],
    [
      'loops whose names are kept in locals',
      'let n = 0;\nfor (let i = 0; i < 3; i++) {\n  n += i;\n}\nn',
      [1, 2, 3, 5, 5],
    ],
    // The brace that ends a class is line 6 to Node 20 and 22, line 5 to Node 24: left open.
    ['classes', 'class Log {\n  n = 1;\n  add() {\n    this.n++;\n  }\n}', [1, 2, 4, 4, 5]],
    ['awaits', 'await null;\nconst v = await Promise.resolve(\n  3,\n);\nv', [1, 2, 5, 5, 5]],
    ['names that the host has', 'let a = 1;\nconst process = a;\nprocess', [1, 2, 3]],
    ['no line with code', '// nothing', [0]],
  ])('%s', async (_, source, lines) => {
    expect((await linesOf(source)).slice(0, lines.length)).toEqual(lines);
  });

  test('code that the compiler adds belongs to no line', () => {
    const { js, map } = compileCell('let a = 1;\na', new NameLedger(() => false));
    const cell = new CellScript(js, map.mappings());
    const columnNumber = js.indexOf('__cell.step');
    expect(cell.placeOf({ lineNumber: 0, columnNumber })).toBeNull();
    expect(cell.placeOf({ lineNumber: 0, columnNumber: 0 })).toBeNull();
    expect(cell.placeOf({ lineNumber: 1, columnNumber: 0 })).toEqual({ line: 2, column: 1 });
  });

  test('columns are those of the TypeScript', () => {
    const source = 'let wide: Array<number> = []; wide.push(1)';
    const { js, map } = compileCell(source, new NameLedger(() => false));
    const cell = new CellScript(js, map.mappings());
    const place = cell.placeOf({ lineNumber: 0, columnNumber: js.indexOf('push') });
    expect(place).toEqual({ line: 1, column: source.indexOf('push') + 1 });
  });
});

test('an exception is caught where a try with a catch stands around it in the same function', () => {
  const js =
    'a();\ntry { b() } catch { c() }\ntry { d() } finally { e() }\ntry { f(() => { g() }) } catch {}';
  const caught = [...'abcdefg'].filter((name) => isInTry(js, 0, js.indexOf(`${name}(`)));
  expect(caught).toEqual(['b', 'f']);
  // One function read out of a script that as a whole is none of our business.
  const large = '@@@ const x = async (v) => { try { await v() } catch {} }; @@@';
  expect(isInTry(large, large.indexOf('(v)'), large.indexOf('v()'))).toBe(true);
  const method = '@@@ get(v) { super.get(v); try { this.#a(v) } catch {} } has(v) {} @@@';
  expect(isInTry(method, method.indexOf('(v)'), method.indexOf('#a'))).toBe(true);
  expect(isInTry(method, method.indexOf('(v)'), method.indexOf('super'))).toBe(false);
});

describe('values', () => {
  test('stand on one line, as their class says', () => {
    expect(textOf(angle('34°17.6′'))).toBe('Angle 34°17.6′');
    expect(textOf([1, { a: 'b' }])).toBe("[ 1, { a: 'b' } ]");
    expect(textOf(new Map([['a', 1]]))).toBe("Map(1) { 'a' => 1 }");
    expect(textOf('a\n  b')).toBe("'a\\n  b'");
    expect(textOf('x'.repeat(1000)).length).toBeLessThan(260);
    const broken = new (class Broken {
      toString(): string {
        throw new Error('no');
      }
    })();
    expect(textOf(broken)).toBe('Broken (Error: no)');
  });

  test('are looked into without calling their getters', () => {
    let calls = 0;
    const value = { a: 1, 'b c': [2], get d() { return calls++; }, [Symbol('s')]: 3 }; // prettier-ignore
    const parts = partsOf(value, 'value')?.() ?? [];
    expect(parts.map(({ name, path, value: v }) => [name, path, textOf(v)])).toEqual([
      ['a', 'value.a', '1'],
      ['b c', "value['b c']", '[ 2 ]'],
      ['d', 'value.d', '(computed when read)'],
      ['[Symbol(s)]', '', '3'],
    ]);
    expect(calls).toBe(0);
    expect(partsOf(7, 'n')).toBeNull();
    expect(partsOf([], 'n')).toBeNull();
    const many = partsOf(new Array<number>(600).fill(0), 'n')?.() ?? [];
    expect([many.length, textOf(many.at(-1)?.value)]).toEqual([
      501,
      'only the first 500 are listed',
    ]);
  });
});

test('an expression of the console finds names where the session keeps them', () => {
  const ledger = new NameLedger((name) => name === 'process');
  compileCell('const process = 1; let speed = 2; const fixed = 3', ledger);
  const js = (source: string, bound: string[] = []) =>
    compileExpression(source, ledger, new Set(bound));
  expect(js('process + (speed as number)')).toBe('process$cell + (speed )');
  expect(js('process', ['process'])).toBe('process');
  expect(js('fixed = 4')).toBe('__cell.constant.fixed = 4');
  expect(js('({ process })')).toBe('({ process: process$cell })');
  expect(js('let speed = 5; speed')).toBe('let speed = 5; speed');
});
