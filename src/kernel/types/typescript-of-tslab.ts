import real from '@tslab/typescript-for-tslab';
import type { KeptTypeScript } from './kept/keep-program.js';

/** TypeScript 5.0.4 as tslab's converter sees it; the build puts `keepProgram` in between (types-bundle.mjs). */
export const TS = real as unknown as KeptTypeScript;
