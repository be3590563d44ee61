import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { textOf, type Notebook } from '../../kernel/runner/notebook.js';
import { packageRoot } from '../../kernel/modules/package-root.js';
import type { EditionFacts } from '../client/page-data.js';

export interface EditionOptions {
  readonly kind: 'student' | 'teacher';
  /** Name of the notebook's file without `.ipynb`. */
  readonly name: string;
}

const GENERAL_CAUTIONS = [
  'Never look at the Sun through a telescope or an open sight without the right shades.',
  'Never rely on one means of fixing the position.',
  'For navigation, official publications, local rules and licensed practice come first.',
];
const VERSION_DIGITS = 8;

export const sha256 = (bytes: Uint8Array | string): string =>
  createHash('sha256').update(bytes).digest('hex');

/** Checksums of the data files that the library computes from (not of demo data), as data/SHA256SUMS has them. */
export function dataChecksums(root = packageRoot()): Record<string, string> {
  const text = fs.readFileSync(path.join(root, 'data', 'SHA256SUMS'), 'utf8');
  const lines = [...text.matchAll(/^([0-9a-f]{64})\s+\*?(.+)$/gm)];
  const own = lines.filter(([, , file]) => file !== undefined && !file.includes('/'));
  return Object.fromEntries(own.map(([, sum, file]) => [file ?? '', sum ?? '']));
}

export function libraryVersion(root = packageRoot()): string {
  const { version } = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8')) as {
    version: string;
  };
  return version;
}

/** What an edition says of itself; the version follows from the notebook alone, so that the same source gives the same edition. */
export function editionFacts(notebook: Notebook, options: EditionOptions): EditionFacts {
  const about = (notebook.metadata['cocked_hat'] ?? {}) as { licence?: unknown };
  const text = JSON.stringify(notebook.cells.map((cell) => [cell.id, textOf(cell.source)]));
  return {
    notebook: options.name,
    title: titleOf(notebook) ?? options.name,
    kind: options.kind,
    version: sha256(text).slice(0, VERSION_DIGITS),
    library: libraryVersion(),
    data: dataChecksums(),
    licence: typeof about.licence === 'string' ? about.licence : 'not stated',
    cautions: GENERAL_CAUTIONS,
  };
}

/** The first heading of the notebook. */
function titleOf(notebook: Notebook): string | undefined {
  for (const cell of notebook.cells) {
    if (cell.cell_type !== 'markdown') continue;
    const heading = /^#{1,3}\s+(.+?)\s*#*$/m.exec(textOf(cell.source))?.[1];
    if (heading) return heading.replace(/[*_`]/g, '');
  }
  return undefined;
}
