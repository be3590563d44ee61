import { list, record, text, ViewDataError, within, type Check } from '../check.js';

const MOST_BYTES = 2 ** 31;

const piece: Check<readonly [number, string]> = (value, path) => {
  if (!Array.isArray(value) || value.length !== 2)
    throw new ViewDataError(path, 'an offset and bytes in base64', value);
  const offset = within(0, MOST_BYTES)(value[0], `${path}[0]`);
  const base64 = text(value[1], `${path}[1]`);
  if (!/^[A-Za-z0-9+/]*={0,2}$/.test(base64))
    throw new ViewDataError(`${path}[1]`, 'base64', base64);
  return [offset, base64] as const;
};

/** Pieces of an ephemeris file out of view data. */
export const ephemerisPieces = record({ name: text, pieces: list(piece, 500) });
