import fs from 'node:fs';
import path from 'node:path';
import { UsageError } from '../errors.js';

/** Where the executed copy of a notebook goes; undefined: nowhere. */
export type Destination = (notebook: string) => string | undefined;

const isFolder = (place: string) => fs.statSync(place, { throwIfNoEntry: false })?.isDirectory();

function intoFolder(folder: string, notebooks: readonly string[]): Destination {
  const names = notebooks.map((file) => path.basename(file));
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  if (twice)
    throw new UsageError(`Two notebooks are named ${twice}; one would overwrite the other.`);
  return (notebook) => path.join(folder, path.basename(notebook));
}

/**
 * Where executed notebooks are to be written.
 * @param out the value of -o: a file for one notebook, a folder (made if missing) for one or more
 * @throws UsageError when that cannot be done
 */
export function chooseDestination(
  notebooks: readonly string[],
  { out, inPlace }: { out: string | undefined; inPlace: boolean },
): Destination {
  if (inPlace && out !== undefined)
    throw new UsageError('-o and --in-place exclude each other; give one of them.');
  if (inPlace) return (notebook) => notebook;
  if (out === undefined) return () => undefined;
  if (!out.endsWith('.ipynb') || isFolder(out)) return intoFolder(out, notebooks);
  if (notebooks.length > 1)
    throw new UsageError(
      `-o ${out} names one file for ${notebooks.length} notebooks; name a folder instead.`,
    );
  return () => out;
}
