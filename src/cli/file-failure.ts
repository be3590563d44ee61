import { JobError } from './errors.js';

const FULL = {
  text: 'the disk is full',
  remedy: 'make room, or name a place on another disk',
};
const NOT_ALLOWED = {
  text: 'this account may not do that there',
  remedy: 'name a place that you may read and write, or mend the permissions',
};
/** What the system says of a file, in words. The codes are those of POSIX. */
const SAID: Readonly<Record<string, { readonly text: string; readonly remedy: string }>> = {
  ENOSPC: FULL,
  EDQUOT: FULL,
  EACCES: NOT_ALLOWED,
  EPERM: NOT_ALLOWED,
  EROFS: { text: 'the disk can only be read', remedy: 'name a place on another disk' },
  ENOENT: {
    text: 'there is no such file or folder',
    remedy: 'look at the name, or make the folder first',
  },
  ENOTDIR: { text: 'a part of its name is a file, not a folder', remedy: 'look at the name' },
  EISDIR: { text: 'it is a folder, not a file', remedy: 'name a file' },
  ENAMETOOLONG: { text: 'the name is too long', remedy: 'give a shorter one' },
  EBUSY: { text: 'another program holds it', remedy: 'close it there, and give the command again' },
};
const READING = new Set(['scandir', 'stat', 'lstat', 'read']);
/** A file or folder that is written under a name of its own first: what it stands in is named instead. */
const PART = /[/\\]?[^/\\]*\.part(?:[-/\\].*)?$/;

/**
 * A failure of the system to read or write a file, as the user is told it: which file, why, what to do. What is no such
 * failure comes back as it is.
 */
export function fileFailure(error: unknown): unknown {
  if (!(error instanceof Error)) return error;
  const { code, path, dest, syscall } = error as NodeJS.ErrnoException & { dest?: string };
  const said = SAID[code ?? ''];
  if (said === undefined) return error;
  const place = dest ?? path;
  const part = place !== undefined && PART.test(place);
  const reads = READING.has(syscall ?? '') || (syscall === 'open' && !part);
  const shown = place === undefined ? 'The file' : place.replace(PART, '') || 'This folder';
  return new JobError(
    `${shown} cannot be ${reads ? 'read' : 'written'}: ${said.text}`,
    said.remedy,
    {
      cause: error,
    },
  );
}
