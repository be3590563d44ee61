import MagicString from 'magic-string';
import type { NameLedger } from './name-ledger.js';
import { parseCell } from './parse.js';
import { rewriteReferences } from './references.js';
import { findUses } from './scopes.js';
import { stripTypes } from './strip-types.js';
import { topLevelNames } from './declared-names.js';

/**
 * JavaScript of statements that are evaluated in a frame of stopped code: types are taken out, and
 * names of cells stand for where the session keeps them. What they declare lasts no longer than
 * they do. `inScope`: names that the frame binds itself.
 */
export function compileExpression(
  source: string,
  ledger: NameLedger,
  inScope: ReadonlySet<string>,
): string {
  const { js } = stripTypes(source);
  const program = parseCell(js);
  const own = topLevelNames(program);
  const uses = findUses(program);
  const references = uses.references.filter(
    ({ node }) => !own.has(node.name) && !inScope.has(node.name),
  );
  const out = new MagicString(js);
  rewriteReferences({ ...uses, references }, out, ledger, new Map(), () => false);
  return out.toString();
}
