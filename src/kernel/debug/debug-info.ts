import { HASH_SEED, SUFFIX, type CellFiles } from './cell-files.js';

/** What changes while a debugger is used. */
export interface DebugState {
  readonly isStarted: boolean;
  readonly breakpoints: readonly object[];
  readonly stoppedThreads: readonly number[];
}

const IDLE: DebugState = { isStarted: false, breakpoints: [], stoppedThreads: [] };

/** The answer to `debugInfo`, which clients ask of each kernel, debugged or not. */
export function debugInfo(files: CellFiles, state: DebugState = IDLE): object {
  return {
    ...state,
    hashMethod: 'Murmur2',
    hashSeed: HASH_SEED,
    tmpFilePrefix: files.prefix,
    tmpFileSuffix: SUFFIX,
    richRendering: true,
    exceptionPaths: ['TypeScript exceptions'],
    copyToGlobals: true,
  };
}
