import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { MappedCell } from '../../cells/index.js';
import { packageRoot } from '../modules/package-root.js';
import type { CellFiles } from './cell-files.js';
import type { CellsInspector } from './cells-inspector.js';
import { CellScript, type Place, type ScriptPlace } from './cell-script.js';
import type { Source } from './protocol.js';

/** The kernel's folder, as modules and as scripts have it in their addresses. */
const KERNEL = [new URL('.', import.meta.url).href, fileURLToPath(new URL('.', import.meta.url))];

/** Patterns of addresses into which no step leads and in which no exception stops: Node and the kernel. */
export const MACHINERY = ['^node:', '^$', ...KERNEL.map(escaped), '/cell\\.mjs$'];
/** Patterns of the code of others, which steps pass over. */
export const LIBRARIES = ['/node_modules/', escaped(libraryFolder())];

const machinery = new RegExp(MACHINERY.join('|'));
const foreign = new RegExp([...MACHINERY, ...LIBRARIES].join('|'));

/** What V8 says of a script when it reads it. */
export interface ParsedScript {
  readonly scriptId: string;
  readonly url: string;
}

/** A script that a client may see: a cell with its text, or a file of the notebook's folder. */
export interface UserScript {
  readonly source: Source;
  readonly js: string;
  readonly cell: CellScript | null;
}

/** The scripts of the thread that runs cells. */
export class Scripts {
  readonly #urls = new Map<string, string>();
  readonly #read = new Map<string, Promise<UserScript | null>>();

  constructor(
    private readonly inspector: CellsInspector,
    private readonly files: CellFiles,
  ) {}

  add({ scriptId, url }: ParsedScript): void {
    this.#urls.set(scriptId, url);
  }

  /** Id of the newest script with this name. */
  idOf(url: string): string | undefined {
    return [...this.#urls].findLast(([, known]) => known === url)?.[0];
  }

  isOutsideKernel(scriptId: string): boolean {
    return !machinery.test(this.#urls.get(scriptId) ?? '');
  }

  isUsers(scriptId: string): boolean {
    return !foreign.test(this.#urls.get(scriptId) ?? '');
  }

  /** The script, if it is one of the user's. */
  user(scriptId: string): Promise<UserScript | null> {
    const known = this.#read.get(scriptId);
    if (known) return known;
    const read = this.#find(scriptId).catch(() => null);
    this.#read.set(scriptId, read);
    return read;
  }

  /** Ids of the scripts of cells with this text. */
  async ofCell(source: string): Promise<string[]> {
    const names = new Set(await this.inspector.ask<string[]>('filesOf', source));
    return [...this.#urls].filter(([, url]) => names.has(url)).map(([scriptId]) => scriptId);
  }

  async text(scriptId: string): Promise<string> {
    type Text = { readonly scriptSource: string };
    const { scriptSource } = await this.inspector.post<Text>('Debugger.getScriptSource', {
      scriptId,
    });
    return scriptSource;
  }

  async #find(scriptId: string): Promise<UserScript | null> {
    const url = this.#urls.get(scriptId) ?? '';
    if (!this.isUsers(scriptId)) return null;
    if (url.startsWith('file:')) {
      const file = fileURLToPath(url.replace(/\?.*$/, ''));
      const source = { name: path.basename(file), path: file };
      return { source, js: await this.text(scriptId), cell: null };
    }
    const mapped = await this.inspector.ask<MappedCell | null>('cell', url);
    if (!mapped) return null;
    const js = await this.text(scriptId);
    const source = { name: url.replace(/\.ts$/, ''), path: this.files.add(mapped.source) };
    return { source, js, cell: new CellScript(js, mapped) };
  }
}

/** The place in the user's text; null for what the compiler added. */
export function placeIn({ cell }: UserScript, at: ScriptPlace): Place | null {
  return cell ? cell.placeOf(at) : { line: at.lineNumber + 1, column: (at.columnNumber ?? 0) + 1 };
}

function libraryFolder(): string {
  return `${pathToFileURL(path.join(packageRoot(), 'dist')).href}/`;
}

/** V8 takes patterns as regular expressions. */
export function escaped(text: string): string {
  return text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');
}
