import type ts from 'typescript';

/** Files of the language service, all in memory. */
export class MemoryFiles {
  readonly #files = new Map<string, { version: number; text: string }>();
  readonly #folders = new Set<string>(['/']);

  constructor(files: Readonly<Record<string, string>>) {
    for (const [name, text] of Object.entries(files)) this.write(name, text);
  }

  write(name: string, text: string): void {
    const old = this.#files.get(name);
    if (old?.text === text) return;
    this.#files.set(name, { version: (old?.version ?? 0) + 1, text });
    for (let at = name.lastIndexOf('/'); at > 0; at = name.lastIndexOf('/', at - 1))
      this.#folders.add(name.slice(0, at));
  }

  delete(name: string): void {
    this.#files.delete(name);
  }

  /** What the language service asks of its host; `roots` names the files it starts from. */
  host(
    TS: typeof ts,
    options: ts.CompilerOptions,
    defaultLib: string,
    roots: () => string[],
  ): ts.LanguageServiceHost {
    const folders = this.#folders;
    return {
      getCompilationSettings: () => options,
      getScriptFileNames: roots,
      getScriptVersion: (name) => String(this.#files.get(name)?.version ?? 0),
      getScriptSnapshot: (name) => {
        const file = this.#files.get(name);
        return file && TS.ScriptSnapshot.fromString(file.text);
      },
      getCurrentDirectory: () => '/',
      getDefaultLibFileName: () => defaultLib,
      fileExists: (name) => this.#files.has(name),
      readFile: (name) => this.#files.get(name)?.text,
      directoryExists: (name) => folders.has(name.replace(/\/$/, '') || '/'),
      getDirectories: () => [],
    };
  }
}
