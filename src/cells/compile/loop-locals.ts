import type { Node } from 'acorn';
import type { NameKind } from './declared-names.js';
import type { NameLedger } from './name-ledger.js';
import type { Reference, Uses } from './scopes.js';

/** Names that a loop may keep in local variables while it runs. */
export interface LoopLocals {
  readonly loop: Node;
  readonly written: readonly string[];
  readonly read: readonly string[];
}

/**
 * Session names are global properties, which hot loops read and write slowly. A loop that no other
 * code can look into keeps them in locals: those it writes if no function of any cell uses them,
 * those it only reads if no function of any cell assigns them. Loops that await are left alone.
 */
export function findLoopLocals(
  uses: Uses,
  cellNames: ReadonlyMap<string, NameKind>,
  ledger: NameLedger,
  isEarly: (reference: Reference) => boolean,
): LoopLocals[] {
  const loops = new Map<Node, Map<string, boolean>>();
  const barred = new Map<Node, Set<string>>();
  for (const r of uses.references) {
    const { loop, write, declares } = r;
    const { name } = r.node;
    const kind = cellNames.get(name) ?? ledger.kind(name);
    if (!loop || uses.awaitingLoops.has(loop)) continue;
    if (kind !== 'const' && kind !== 'let' && kind !== 'var') continue;
    if (isEarly(r) || (write && !declares && kind === 'const')) {
      barred.set(loop, (barred.get(loop) ?? new Set()).add(name));
      continue;
    }
    const names = loops.get(loop) ?? new Map<string, boolean>();
    names.set(name, (names.get(name) ?? false) || write);
    loops.set(loop, names);
  }
  return [...loops].map(([loop, names]) => {
    const free = [...names].filter(([name]) => !barred.get(loop)?.has(name));
    return {
      loop,
      written: free.flatMap(([n, w]) => (w && !ledger.isCaptured(n) ? [n] : [])),
      read: free.flatMap(([n, w]) => (!w && !ledger.isAssignedByClosure(n) ? [n] : [])),
    };
  });
}
