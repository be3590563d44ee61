import { pathToFileURL } from 'node:url';
import type { CellFiles } from './cell-files.js';
import type { CellsInspector } from './cells-inspector.js';
import { CellScript, type ScriptPlace } from './cell-script.js';
import type { TrialCell } from './cells-view.js';
import type { Source } from './protocol.js';
import { escaped, type Scripts } from './scripts.js';

/** A breakpoint as the client is told of it. */
export interface Breakpoint {
  readonly id: number;
  readonly verified: boolean;
  readonly line: number;
  readonly source: Pick<Source, 'path'>;
  readonly message?: string;
}

/** A place as V8 hands them out. */
interface Location extends ScriptPlace {
  readonly scriptId: string;
}

interface Trial {
  readonly cell: CellScript;
  readonly places: readonly Location[];
}

/** The breakpoints of a session, by the file that the client set them in. */
export class Breakpoints {
  readonly #lines = new Map<string, readonly number[]>();
  /** Ids of V8's breakpoints; a line has one in each script made of its cell. */
  readonly #set = new Map<string, string[]>();
  readonly #trials = new Map<string, Promise<Trial | null>>();
  #lastId = 0;
  #lastTrial = 0;

  constructor(
    private readonly inspector: CellsInspector,
    private readonly scripts: Scripts,
    private readonly files: CellFiles,
  ) {}

  /** What `debugInfo` says of them. */
  list(): object[] {
    return [...this.#lines]
      .filter(([, lines]) => lines.length > 0)
      .map(([source, lines]) => ({ source, breakpoints: lines.map((line) => ({ line })) }));
  }

  clear(): void {
    this.#lines.clear();
    this.#set.clear();
    this.#trials.clear();
  }

  /** Replaces the breakpoints of a file; each is moved to a line with code. */
  async replace(path: string, wanted: readonly number[]): Promise<Breakpoint[]> {
    for (const breakpointId of this.#set.get(path) ?? [])
      await this.inspector.post('Debugger.removeBreakpoint', { breakpointId });
    this.#set.delete(path);
    const found = this.files.has(path)
      ? await this.#inCell(path, wanted)
      : await this.#inFile(path, wanted);
    const lines = found.map(({ line }) => line);
    this.#lines.set(path, [...new Set(lines)]);
    return found.map((one) => ({ id: ++this.#lastId, source: { path }, ...one }));
  }

  /** Sets the breakpoints of a cell in its script, which is about to run. */
  async bind(scriptId: string): Promise<void> {
    const script = await this.scripts.user(scriptId);
    const lines = script?.cell ? this.#lines.get(script.source.path) : undefined;
    if (!script?.cell || !lines?.length) return;
    const places = await this.#places(scriptId);
    const ids = this.#set.get(script.source.path) ?? [];
    this.#set.set(script.source.path, ids);
    for (const line of lines) {
      const stop = script.cell.stopFor(line, places);
      if (!stop) continue;
      type Set = { readonly breakpointId: string };
      // Where cells of one text were run twice, V8 may hold the place already.
      const set = this.inspector.post<Set>('Debugger.setBreakpoint', { location: stop.script });
      await set.then(
        ({ breakpointId }) => ids.push(breakpointId),
        () => undefined,
      );
    }
  }

  async #inCell(path: string, wanted: readonly number[]) {
    const source = this.files.source(path);
    const trial = source === undefined ? null : await this.#trial(path, source);
    const found = wanted.map((line) => {
      const stop = trial?.cell.stopFor(line, trial.places);
      if (stop) return { line: stop.line, verified: true };
      const message = trial ? 'no line of this cell has code' : 'this cell cannot be read';
      return { line, verified: false, message };
    });
    this.#lines.set(path, [...new Set(found.map(({ line }) => line))]);
    if (source !== undefined && wanted.length > 0)
      for (const scriptId of await this.scripts.ofCell(source)) await this.bind(scriptId);
    return found;
  }

  /** In a file of the notebook's folder, whose lines are those of its script. */
  async #inFile(path: string, wanted: readonly number[]) {
    const urlRegex = `^${escaped(pathToFileURL(path).href)}(\\?.*)?$`;
    const ids: string[] = [];
    this.#set.set(path, ids);
    const found: { line: number; verified: boolean }[] = [];
    for (const line of wanted) {
      type Set = { readonly breakpointId: string; readonly locations: readonly Location[] };
      const params = { urlRegex, lineNumber: line - 1 };
      const set = await this.inspector
        .post<Set>('Debugger.setBreakpointByUrl', params)
        .catch(() => null);
      if (set) ids.push(set.breakpointId);
      const at = set?.locations.at(-1);
      found.push({ line: at ? at.lineNumber + 1 : line, verified: at !== undefined });
    }
    return found;
  }

  /** The cell compiled but not run, so that its lines with code are known before. */
  #trial(path: string, source: string): Promise<Trial | null> {
    const known = this.#trials.get(path);
    if (known) return known;
    const trial = this.#compile(source);
    this.#trials.set(path, trial);
    return trial;
  }

  async #compile(source: string): Promise<Trial | null> {
    const trial = await this.inspector.ask<TrialCell | null>('trial', source);
    if (!trial) return null;
    // The script of a cell makes a function and does not call it; V8 tells of it also while the thread stands still.
    const name = `trial:${++this.#lastTrial}`;
    const expression = `${trial.js}\n//# sourceURL=${name}`;
    await this.inspector.post('Runtime.evaluate', { expression, disableBreaks: true });
    const scriptId = this.scripts.idOf(name);
    if (scriptId === undefined) return null;
    const places = await this.#places(scriptId);
    return { cell: new CellScript(trial.js, trial), places };
  }

  async #places(scriptId: string): Promise<readonly Location[]> {
    type Possible = { readonly locations: readonly Location[] };
    const start = { scriptId, lineNumber: 0, columnNumber: 0 };
    const { locations } = await this.inspector.post<Possible>('Debugger.getPossibleBreakpoints', {
      start,
    });
    return locations;
  }
}
