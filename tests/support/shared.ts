import fs from 'node:fs';
import path from 'node:path';
import { inject } from 'vitest';

/** What the shared service of that name tells those who use it; starts it if nobody has. */
export async function sharedService<T>(name: string): Promise<T> {
  const answer = await fetch(`${inject('shared').url}/${name}`);
  if (!answer.ok) throw new Error(await answer.text());
  return (await answer.json()) as T;
}

/**
 * A folder of this run that is filled once: the first test that asks has `fill` write it, others wait for that. Tests read
 * it and leave it as it is.
 */
export async function sharedFolder(
  name: string,
  fill: (folder: string) => Promise<void>,
): Promise<string> {
  const folder = path.join(inject('shared').folder, name);
  const done = `${folder}.done`;
  try {
    fs.mkdirSync(folder);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    while (!fs.existsSync(done)) await new Promise((resolve) => setTimeout(resolve, 50));
    const failure = fs.readFileSync(done, 'utf8');
    if (failure) throw new Error(failure);
    return folder;
  }
  let failure = '';
  try {
    await fill(folder);
  } catch (error) {
    failure = `${name}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`;
  }
  fs.writeFileSync(`${done}.part`, failure);
  fs.renameSync(`${done}.part`, done);
  if (failure) throw new Error(failure);
  return folder;
}
