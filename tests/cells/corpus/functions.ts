import { fails, gives, prints, sets } from './corpus-cell.js';

/** Functions, closures, classes, generators, iteration, promises. */
export const functions = [
  gives('((x: number) => x * x)(5)', '25'),
  gives('const early1 = hoisted(); function hoisted() { return "up" } early1', "'up'"),
  gives('hoisted.name', "'hoisted'"),
  gives('const arrow = () => 1; arrow.name', "'arrow'"),
  gives('(function named() { return named.name })()', "'named'"),
  gives(
    'function fact(k: number): number { return k < 2 ? 1 : k * fact(k - 1) } fact(10)',
    '3628800',
  ),
  gives(
    'function defaults(a = 1, { b = 2, c: [d = 3] = [] as number[] } = {} as any, ...rest: number[]) { return [a, b, d, rest.length] } defaults()',
    '[ 1, 2, 3, 0 ]',
  ),
  gives('function args() { return arguments.length } (args as any)(1, 2)', '2'),
  gives(
    'const counter = (() => { let c = 0; return { next: () => ++c } })(); counter.next(); counter.next()',
    '2',
  ),
  gives(
    'const makers = []; for (let k = 0; k < 3; k++) makers.push(() => k); makers.map((f) => f())',
    '[ 0, 1, 2 ]',
  ),
  gives('(() => this)()', null),
  gives('typeof (function () { return this })()', "'undefined'"),
  sets(
    'class Limb { static count = 0; #up = true; constructor(readonly name: string) { Limb.count++ } get isUpper() { return this.#up } static make() { return new Limb("made") } }',
  ),
  gives('new Limb("lower").isUpper', 'true'),
  gives('Limb.make()', "Limb { name: 'made' }"),
  gives('Limb.count', '2'),
  gives(
    'class UpperLimb extends Limb { override get isUpper() { return super.isUpper } } new UpperLimb("u") instanceof Limb',
    'true',
  ),
  gives('class Limb { kind = "new" } new Limb()', "Limb { kind: 'new' }"),
  gives(
    'class Point { constructor(public x: number, private y = 2) {} sum() { return this.x + this.y } } new Point(1).sum()',
    '3',
  ),
  gives('const Anonymous = class { v = 1 }; Anonymous.name', "'Anonymous'"),
  gives(
    'abstract class Body { abstract gha(): number } class Sun extends Body { gha() { return 1 } } new Sun().gha()',
    '1',
  ),
  gives('class Chain { n = 0; add() { this.n++; return this } } new Chain().add().add().n', '2'),
  gives('enum Side { Port, Starboard = 5, Aft } [Side.Aft, Side[5]]', "[ 6, 'Starboard' ]"),
  gives('enum Side { Bow } Object.keys(Side)', "[ '0', 'Bow' ]"),
  gives('enum Word { Toward = "toward" } Word.Toward', "'toward'"),
  sets('function* naturals() { let k = 0; while (true) yield k++ }'),
  gives('const it = naturals(); it.next(); it.next().value', '1'),
  gives(
    'const firstOf: number[] = []; for (const k of naturals()) { if (k > 3) break; firstOf.push(k) } firstOf',
    '[ 0, 1, 2, 3 ]',
  ),
  gives('[...(function* () { yield* [1, 2]; yield 3 })()]', '[ 1, 2, 3 ]'),
  gives(
    'const iterable = { *[Symbol.iterator]() { yield "a"; yield "b" } }; [...iterable]',
    "[ 'a', 'b' ]",
  ),
  gives('await Promise.resolve(7)', '7'),
  gives('const waited = await new Promise<number>((r) => setTimeout(() => r(8), 5)); waited', '8'),
  gives('async function double(x: number) { await null; return 2 * x } await double(4)', '8'),
  gives('await Promise.all([1, Promise.resolve(2), double(3)])', '[ 1, 2, 6 ]'),
  gives('let sum = 0; for (const p of [double(1), double(2)]) sum += await p; sum', '6'),
  prints(
    'async function* ticks() { yield 1; await null; yield 2 }\nfor await (const t of ticks()) console.log(t)',
    '1\n2\n',
  ),
  gives(
    'let awaited = 0; for await (const v of [1, Promise.resolve(2)]) awaited += v; awaited',
    '3',
  ),
  gives(
    '(await Promise.allSettled([Promise.reject(new Error("x")), 1])).map((r) => r.status)',
    "[ 'rejected', 'fulfilled' ]",
  ),
  gives('await (await double(2) > 3 ? double(5) : 0)', '10'),
  prints(
    'try { await Promise.reject(new Error("caught")) } catch (e) { console.log((e as Error).message) } finally { console.log("end") }',
    'caught\nend\n',
  ),
  fails('await Promise.reject(new RangeError("not caught"))', 'RangeError', 'not caught', ':1:22'),
  gives(
    'const bound = { v: 3, get() { return this.v } }; const { get } = bound; get.call({ v: 4 })',
    '4',
  ),
  gives(
    'const tagged = (s: TemplateStringsArray, ...v: unknown[]) => s.raw.join("|") + v.length; tagged`a${1}b\\n${2}c`',
    "'a|b\\\\n|c2'",
  ),
  gives('[1, 2, 3].reduce((a, b) => a + b, 0)', '6'),
  gives('new Proxy({ a: 1 } as any, { get: (t, k) => (k in t ? t[k as string] : 42) }).zzz', '42'),
  gives(
    'const memo = new WeakMap<object, number>(); const obj = {}; memo.set(obj, 5); memo.get(obj)',
    '5',
  ),
  gives('Reflect.ownKeys(class { static s = 1 })', "[ 'length', 'name', 'prototype', 's' ]"),
];
