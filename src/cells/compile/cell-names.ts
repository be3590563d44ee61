import { topLevelNames } from './declared-names.js';
import { parseCell } from './parse.js';
import { stripTypes } from './strip-types.js';

/** Names of values that a cell declares at its top level, imports left out; none if the cell cannot be read. */
export function cellNames(source: string): string[] {
  try {
    const names = topLevelNames(parseCell(stripTypes(source).js));
    return [...names].filter(([, kind]) => kind !== 'import').map(([name]) => name);
  } catch {
    return [];
  }
}
