import { EntryError } from '../core/units/index.js';

const FILE_NAME = /^[^\n\r<{]{1,250}\.(?:csv|tsv|txt|json|gpx)$/i;

/**
 * Readers take the text of a file: a name in its place is a slip that everybody makes once.
 * @param call the reader as it is called, `SightLog.fromCsv`
 * @throws EntryError with the form that reads the file first
 */
export function refuseFileName(text: unknown, call: string): void {
  if (typeof text !== 'string' || !FILE_NAME.test(text.trim())) return;
  const name = text.trim();
  throw new EntryError(
    `This is the name of a file, not what stands in it. Write ${call}(await readText('${name}')).`,
    text,
  );
}
