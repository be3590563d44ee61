import type * as acorn from 'acorn';
import type MagicString from 'magic-string';
import type { NameLedger } from './name-ledger.js';
import { RUNTIME } from './runtime-name.js';

/** An import becomes awaited assignments at the top of the cell. */
export function rewriteImport(
  node: acorn.ImportDeclaration,
  out: MagicString,
  ledger: NameLedger,
  after: string,
): void {
  out.update(node.start, node.end, importCode(node, ledger) + after);
}

function importCode(node: acorn.ImportDeclaration, ledger: NameLedger): string {
  const load = `await ${RUNTIME}.import(${JSON.stringify(node.source.value)})`;
  const named: string[] = [];
  let code = '';
  for (const specifier of node.specifiers) {
    const local = ledger.storage(specifier.local.name);
    if (specifier.type === 'ImportNamespaceSpecifier') code += `void (${local} = ${load});`;
    else named.push(`${importedName(specifier)}: ${local}`);
  }
  if (named.length) code += `void ({${named.join(', ')}} = ${load});`;
  return code || `${load};`;
}

function importedName(specifier: acorn.ImportSpecifier | acorn.ImportDefaultSpecifier): string {
  if (specifier.type === 'ImportDefaultSpecifier') return 'default';
  const { imported } = specifier;
  return imported.type === 'Identifier' ? imported.name : JSON.stringify(imported.value);
}
