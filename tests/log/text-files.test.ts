import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readText, saveText } from '../../src/index.js';

let folder: string;
const at = (name: string) => join(folder, name);
beforeAll(async () => (folder = await mkdtemp(join(tmpdir(), 'text-files-'))));
afterAll(() => rm(folder, { recursive: true }));

it('a text is saved, over what an earlier run saved, and read again as it was', async () => {
  await saveText(at('amended.csv'), 'an earlier run');
  expect(await saveText(at('amended.csv'), 'UTC,reading\r\n1,34°17.6′\r\n')).toBe(
    `2 lines written to ${at('amended.csv')}`,
  );
  expect(await readText(at('amended.csv'))).toBe('UTC,reading\r\n1,34°17.6′\r\n');
});

it('a file that was read is not written over, by whatever path it is named', async () => {
  await writeFile(at('log.csv'), '\uFEFFas it was noted');
  expect(await readText(at('log.csv'))).toBe('as it was noted');
  await expect(saveText(`${folder}/./log.csv`, 'new')).rejects.toThrow(
    /stays as it is: save under/,
  );
  expect(await readFile(at('log.csv'), 'utf8')).toBe('\uFEFFas it was noted');
});

it('what cannot be is said with the right form', async () => {
  await expect(readText(at('none.csv'))).rejects.toThrow(/there is no file '.*none\.csv'/);
  await expect(saveText(at('no/folder.csv'), '')).rejects.toThrow(/there is no folder for/);
  await expect(saveText(at('x.csv'), { a: 1 } as never)).rejects.toThrow(/log\.toCsv\(\)/);
});
