import type ts from 'typescript';

/** What TypeScript 5.0.4 keeps on a file for its checker. */
export type FileInside = ts.SourceFile & {
  fileName: string;
  path: string;
  resolvedPath: string;
  originalFileName: string;
  parent: ts.Node | undefined;
  resolvedModules: Resolutions | undefined;
};

/** Where the specifiers of a file lead. */
export interface Resolutions {
  get(specifier: string, mode: undefined): Resolution | undefined;
  set(specifier: string, mode: undefined, resolution: Resolution): unknown;
}

export type Resolution = ts.ResolvedModuleWithFailedLookupLocations;

/** The host that tslab's converter hands to its watch program. */
export type ConverterHost = ts.WatchCompilerHostOfFilesAndCompilerOptions<ts.BuilderProgram>;

/** TypeScript with the functions that it does not declare. */
export type TypeScriptInside = typeof ts & {
  bindSourceFile(file: ts.SourceFile, options: ts.CompilerOptions): void;
  createModeAwareCache(): Resolutions;
  getPreEmitDiagnosticsOfFiles(program: ts.Program, files: ts.SourceFile[]): ts.Diagnostic[];
};
