import crypto from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';

/** One file of an edition: its place below the output folder, with `/`, and its content. */
export interface EditionFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** @throws RangeError when a name would lead out of the output folder, or cannot name a file on every system */
export function checkedName(name: string): string {
  const parts = name.split('/');
  const bad = parts.find(
    (part) => part === '' || part === '.' || part === '..' || /[\\:*?"<>|\0-\x1f]/.test(part),
  );
  if (bad !== undefined || path.isAbsolute(name))
    throw new RangeError(`'${name}' is no file name below the output folder`);
  return name;
}

/**
 * Puts an edition in place as a whole: everything is written beside it first, then the folder is exchanged by
 * renaming. A process that is killed at any moment leaves the old edition, or the new one, and at worst a folder
 * `.NAME.part-…` beside it, which the next publish takes away.
 */
export function writeEdition(folder: string, files: Iterable<EditionFile>): void {
  const target = path.resolve(folder);
  const parent = path.dirname(target);
  fs.mkdirSync(parent, { recursive: true });
  recover(target);
  refuseForeign(target);
  const stamp = `${process.pid}-${crypto.randomBytes(4).toString('hex')}`;
  const part = path.join(parent, `.${path.basename(target)}.part-${stamp}`);
  const old = path.join(parent, `.${path.basename(target)}.old-${stamp}`);
  fs.mkdirSync(part);
  try {
    for (const { name, bytes } of files) {
      const place = path.join(part, ...checkedName(name).split('/'));
      fs.mkdirSync(path.dirname(place), { recursive: true });
      fs.writeFileSync(place, bytes, { flag: 'wx' });
    }
    fs.writeFileSync(
      path.join(part, MARK),
      'Made by cocked-hat publish; replaced as a whole by the next run.\n',
    );
  } catch (error) {
    fs.rmSync(part, { recursive: true, force: true });
    throw error;
  }
  if (fs.existsSync(target)) fs.renameSync(target, old);
  fs.renameSync(part, target);
  fs.rmSync(old, { recursive: true, force: true });
}

const MARK = '.cocked-hat-edition';

/** A folder that we did not make is not replaced: it may hold somebody's work. */
function refuseForeign(target: string): void {
  if (!fs.existsSync(target)) return;
  if (!fs.statSync(target).isDirectory()) throw new RangeError(`${target} is a file, not a folder`);
  const empty = fs.readdirSync(target).length === 0;
  if (!empty && !fs.existsSync(path.join(target, MARK)))
    throw new RangeError(
      `${target} holds files that no publish made; name another folder, or empty this one`,
    );
}

/** Brings back an old edition that a killed publish had put aside, and takes away its unfinished one. */
function recover(target: string): void {
  const parent = path.dirname(target);
  const name = path.basename(target);
  for (const entry of fs.readdirSync(parent)) {
    const place = path.join(parent, entry);
    if (entry.startsWith(`.${name}.old-`) && !fs.existsSync(target)) fs.renameSync(place, target);
    else if (entry.startsWith(`.${name}.old-`) || entry.startsWith(`.${name}.part-`))
      fs.rmSync(place, { recursive: true, force: true });
  }
}
