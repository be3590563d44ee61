import type ts from 'typescript';
import { CellPrograms } from './cell-programs.js';
import type { ConverterHost, FileInside, TypeScriptInside } from './internals.js';

/** TypeScript as tslab's converter is to see it. */
export type KeptTypeScript = TypeScriptInside & {
  /** The programs of the last converter that was made, and of none before the first. */
  kept: CellPrograms | null;
  /** Whether the next converter may take over the program of the last. */
  mayTakeOver: (host: ConverterHost) => boolean;
};

/**
 * TypeScript for tslab's converter, with a program that is kept from cell to cell. The converter's
 * JavaScript is not used, so none is made.
 */
export function keepProgram(real: TypeScriptInside): KeptTypeScript {
  const createWatchProgram = (host: ConverterHost): CellPrograms => {
    const ready = TS.kept && TS.mayTakeOver(host) ? TS.kept.base : null;
    return (TS.kept = new CellPrograms(TS, host, ready));
  };
  const getPreEmitDiagnosticsOfFiles = (program: ts.Program, files: ts.SourceFile[]) => {
    const found = real.getPreEmitDiagnosticsOfFiles(program, files);
    // The converter knows its cell by the name that it has given it.
    for (const file of files as FileInside[])
      file.fileName = file.fileName.replace(/(__tslab__)\d+(?=\.[jt]s$)/, '$1');
    return found;
  };
  const overrides = {
    createWatchProgram,
    getPreEmitDiagnosticsOfFiles,
    transpileModule: () => ({ outputText: '' }),
    kept: null,
    mayTakeOver: () => false,
  };
  const TS = { ...real, ...overrides } as unknown as KeptTypeScript;
  return TS;
}
