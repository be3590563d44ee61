import fs from 'node:fs';
import path from 'node:path';
import { packageRoot } from '../../kernel/modules/package-root.js';

/** What Node is told so that a process may read only the program and one folder, write nowhere, and start nothing. */
export interface Limits {
  /** The folder the cells run in and may read. */
  readonly folder: string;
  /** A folder they may write in; none unless given. */
  readonly writable?: string;
  readonly memoryMb: number;
}

/** Node's permission model: `--permission` since 22.13 and 23.5, experimental before. */
function permissionFlag(version = process.versions.node): string {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const stable = major > 23 || (major === 23 && minor >= 5) || (major === 22 && minor >= 13);
  return stable ? '--permission' : '--experimental-permission';
}

/** What V8 is told; its code cache serves only processes that are told the same. */
export const v8Flags = (memoryMb: number): string[] => [`--max-old-space-size=${memoryMb}`];

/** The arguments of Node for a process within these limits. */
export function nodeArguments({ folder, writable, memoryMb }: Limits): string[] {
  const readable = [...programFolders(), fs.realpathSync(folder)];
  return [
    permissionFlag(),
    ...readable.map((place) => `--allow-fs-read=${place}`),
    ...(writable ? [`--allow-fs-write=${fs.realpathSync(writable)}`] : []),
    ...v8Flags(memoryMb),
    '--disable-warning=ExperimentalWarning',
    '--disable-warning=SecurityWarning',
  ];
}

/** Our package and the packages beside or inside it. */
function programFolders(): string[] {
  const root = fs.realpathSync(packageRoot());
  const parts = root.split(path.sep);
  const at = parts.lastIndexOf('node_modules');
  const around = at < 0 ? [] : [parts.slice(0, at + 1).join(path.sep)];
  return [root, ...around];
}
