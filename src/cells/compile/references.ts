import type MagicString from 'magic-string';
import type { NameKind } from './declared-names.js';
import type { NameLedger } from './name-ledger.js';
import { RUNTIME } from './runtime-name.js';
import type { Reference, Uses } from './scopes.js';

/** Points the uses of session names to where the session stores them. */
export function rewriteReferences(
  uses: Uses,
  out: MagicString,
  ledger: NameLedger,
  cellNames: ReadonlyMap<string, NameKind>,
  isEarly: (reference: Reference) => boolean,
): void {
  for (const reference of uses.references) {
    const { node, write, declares, shorthand } = reference;
    const kind = cellNames.get(node.name) ?? ledger.kind(node.name);
    if (!kind) continue;
    const storage = ledger.storage(node.name);
    const fixed = write && !declares && (kind === 'const' || kind === 'import');
    let text = storage;
    if (isEarly(reference)) text = `${RUNTIME}.early.${node.name}`;
    else if (fixed) text = `${RUNTIME}.constant.${storage}`;
    if (text === node.name) continue;
    out.update(node.start, node.end, shorthand ? `${node.name}: ${text}` : text);
  }
}
