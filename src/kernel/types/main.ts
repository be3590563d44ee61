/**
 * Judges types, in a process or a thread of its own. The process starts from a snapshot of V8's heap,
 * in which TypeScript has read its library already; the thread reads it itself.
 */
import v8 from 'node:v8';
import { serveTypeEngine } from '../../cells/types/remote-type-engine.js';
import { garbageCollector } from './collect-garbage.js';
import { portLine } from './port-line.js';
import { streamLine } from './stream-line.js';
import { TslabEngine } from './tslab-engine.js';

/** What can wait is done this long after a check, when the cell has its answer. */
const AFTER_MS = 20;

/** Has the engine tidy up behind its checks. */
function tidied(engine: TslabEngine): TslabEngine {
  const collect = garbageCollector();
  const check = engine.check.bind(engine);
  engine.check = async (id, source) => {
    setTimeout(() => {
      engine.refresh();
      collect();
    }, AFTER_MS);
    return check(id, source);
  };
  return engine;
}

if (v8.startupSnapshot.isBuildingSnapshot()) {
  const prepared = new TslabEngine();
  prepared.warmUp();
  v8.startupSnapshot.setDeserializeMainFunction(() => {
    // Of a group's signals this one is for the cells; the end comes with the end of the input.
    process.on('SIGINT', () => undefined);
    process.stdin.on('end', () => process.exit(0));
    process.stdout.on('error', () => process.exit(0));
    // Node would go on with the folder of the snapshot; one that is gone by now has no files to read.
    try {
      process.chdir(process.argv[1] ?? '.');
    } catch {
      process.exit(0);
    }
    serveTypeEngine(streamLine(process.stdin, process.stdout), tidied(prepared.inCurrentFolder()));
  });
} else {
  // Asked for here only: a snapshot could not hold it.
  const { parentPort } = process.getBuiltinModule('node:worker_threads');
  if (parentPort) serveTypeEngine(portLine(parentPort), tidied(new TslabEngine()));
}
