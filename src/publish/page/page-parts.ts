import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { cutEphemeris } from '../../core/sky/index.js';
import { EphemerisFile } from '../../ephemeris-file.js';
import { packageRoot } from '../../kernel/modules/package-root.js';
import { textOf, type Notebook } from '../../kernel/runner/notebook.js';
import { namesUsed } from '../source/index.js';
import type { PageParts } from './one-file-page.js';

const EPHEMERIS = 'ephemeris-1950-2053.bin';
const FIRST_YEAR = 1950;
const LAST_YEAR = 2052;

/** A script for pages, the smallest first, and the names of the library that it does not have. */
interface PageScript {
  readonly script: string;
  readonly without: readonly string[];
}

/** The parts of a page: the built script, its style, and the years of the ephemeris that the notebook names. */
export function pageParts(
  notebook: Notebook,
  years: readonly number[],
  root = packageRoot(),
): PageParts {
  const read = (file: string): string => builtFile(file, root);
  const scripts = JSON.parse(read('scripts.json')) as PageScript[];
  const source = notebook.cells.map((cell) => textOf(cell.source)).join('\n');
  const named = namesUsed(notebook);
  const fit = scripts.find(({ without }) => !without.some((name) => named.has(name)));
  if (!fit) throw new Error('the build made no script that has all parts of the library');
  return {
    script: read(fit.script),
    css: read('page.css'),
    ephemeris: cut(yearsIn(source, years), root),
  };
}

/** The text of a file that the build made for publishing. @throws Error when it has not been built */
export function builtFile(file: string, root = packageRoot()): string {
  const place = path.join(root, 'dist', 'publish', file);
  if (!fs.existsSync(place))
    throw new Error(`${place} is missing: what pages need has not been built (npm run build)`);
  return fs.readFileSync(place, 'utf8');
}

/** Years written in the notebook, and those given; only whole years that the ephemeris covers. */
export function yearsIn(source: string, given: readonly number[]): readonly [number, number] {
  const written = [...source.matchAll(/\b(19[5-9]\d|20[0-4]\d|205[0-2])(?=-\d\d)/g)].map(([y]) =>
    Number(y),
  );
  const all = [...written, ...given].filter((y) => y >= FIRST_YEAR && y <= LAST_YEAR);
  return [Math.min(...all), Math.max(...all)];
}

function cut([from, to]: readonly [number, number], root: string): PageParts['ephemeris'] {
  const source = new EphemerisFile(pathToFileURL(path.join(root, 'data', EPHEMERIS)));
  const name = from === to ? `ephemeris, year ${from}` : `ephemeris, years ${from} to ${to}`;
  return { name, bytes: cutEphemeris(source, from, to) };
}
