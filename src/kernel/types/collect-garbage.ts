import v8 from 'node:v8';

/** How far the heap may outgrow what was alive in it. */
const GROWTH = 1.4;
/** How many checks pass between two looks at the heap. */
const EVERY = 5;

/**
 * Each check leaves a whole program behind as garbage, which V8 lets pile up to gigabytes. The
 * returned function, called after each check, collects it once it outweighs what is alive.
 */
export function garbageCollector(): () => void {
  v8.setFlagsFromString('--expose-gc');
  // Loaded here only: a snapshot of V8's heap could not hold it.
  const vm = process.getBuiltinModule('node:vm');
  const collect = vm.runInNewContext('gc') as () => void;
  let alive = 0;
  let checks = 0;
  return () => {
    if (++checks % EVERY !== 0 || process.memoryUsage().heapUsed < GROWTH * alive) return;
    collect();
    alive = process.memoryUsage().heapUsed;
  };
}
