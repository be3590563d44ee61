/**
 * The first thing that a sandbox's process runs: the program, from V8's code cache where one was made by the same
 * Node with the same flags (it then skips parsing and compiling), else from its text. `--keep FILE` makes that cache: it
 * runs the program on a few usual cells, so that what they call is compiled too, and writes what V8 has by then.
 */
import fs from 'node:fs';
import path from 'node:path';
import vm from 'node:vm';
import type { FromSandbox, ToSandbox } from './messages.js';

const PROGRAM = path.join(__dirname, 'sandbox-program.js');
const argumentOf = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};

/** Cells that call what most answers call: names, figures, a sight and its working, a drawn exercise and its check. */
const USUAL_CELLS = [
  `import { check, observedAltitude, position, sight, sunAltitude } from 'cocked-hat';`,
  `const student = 'A'; const question = sunAltitude({ student, method: 'tenths' }); question`,
  `const answer = Object.assign({}, { dip: '−2.8′' });
observedAltitude(sight({ body: 'Sun', limb: 'lower', reading: '41°18.6′', time: '2027-05-11 09:42:17 UTC', eyeHeight: '2.6 m', dr: position('19°31′ S', '001°12′ W') }))`,
  `check(question, answer)`,
];

function start(): vm.Script {
  const code = argumentOf('--code');
  const cachedData = code !== undefined && fs.existsSync(code) ? fs.readFileSync(code) : undefined;
  const text = fs.readFileSync(PROGRAM, 'utf8');
  const script = new vm.Script(`(function (exports, require, module, __filename) {${text}\n})`, {
    filename: PROGRAM,
    importModuleDynamically: vm.constants.USE_MAIN_CONTEXT_DEFAULT_LOADER,
    ...(cachedData ? { cachedData } : {}),
  });
  const run = script.runInThisContext() as (...args: unknown[]) => void;
  run({}, require, module, PROGRAM);
  return script;
}

/** Takes the place of the parent: sends one cell after the other, then writes the cache. */
function keep(file: string): void {
  let next = 0;
  const send = (message: FromSandbox): boolean => {
    if (message.type !== 'ready' && message.type !== 'done') return true;
    const code = USUAL_CELLS[next++];
    if (code !== undefined) {
      const cell: ToSandbox = { cell: `c${next}`, label: `In[${next}]`, code, keep: true };
      setImmediate(() => process.emit('message', cell, undefined));
      return true;
    }
    setImmediate(() => {
      fs.writeFileSync(file, script.createCachedData());
      process.exit(0);
    });
    return true;
  };
  process.send = send as NonNullable<typeof process.send>;
  const script = start();
}

const file = argumentOf('--keep');
if (file === undefined) start();
else keep(file);
