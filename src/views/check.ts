/**
 * Checks of view data that come out of a notebook file and may be anything. A check returns the value, typed,
 * or throws `ViewDataError` with the path of what is wrong. Unknown fields are dropped; lengths are bounded, so
 * that a hostile file cannot make a page build a million rows.
 */
export class ViewDataError extends Error {
  override readonly name = 'ViewDataError';
  constructor(
    readonly path: string,
    expected: string,
    found: unknown,
  ) {
    super(
      `the data of this view cannot be read: ${path || 'it'} should be ${expected}, not ${brief(found)}`,
    );
  }
}

export type Check<T> = (value: unknown, path: string) => T;
type Checked<F> = { [K in keyof F]: F[K] extends Check<infer T> ? T : never };

const MAX_TEXT = 20_000;

function brief(value: unknown): string {
  const text = typeof value === 'string' ? JSON.stringify(value) : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

export const text: Check<string> = (value, path) => {
  if (typeof value !== 'string' || value.length > MAX_TEXT)
    throw new ViewDataError(path, `text of at most ${MAX_TEXT} characters`, value);
  return value;
};

/** Left as it is, for a reader that checks it itself. */
export const anything: Check<unknown> = (value) => value;

export const number: Check<number> = (value, path) => {
  if (typeof value !== 'number' || !Number.isFinite(value))
    throw new ViewDataError(path, 'a finite number', value);
  return value;
};

/** A finite number within bounds, both included. */
export const within =
  (least: number, most: number): Check<number> =>
  (value, path) => {
    const n = number(value, path);
    if (n < least || n > most) throw new ViewDataError(path, `from ${least} to ${most}`, value);
    return n;
  };

export const flag: Check<boolean> = (value, path) => {
  if (typeof value !== 'boolean') throw new ViewDataError(path, 'true or false', value);
  return value;
};

export const oneOf =
  <T extends string | number>(...allowed: readonly T[]): Check<T> =>
  (value, path) => {
    if (!allowed.includes(value as T))
      throw new ViewDataError(path, `one of ${allowed.join(', ')}`, value);
    return value as T;
  };

export const list =
  <T>(item: Check<T>, most = 2000): Check<T[]> =>
  (value, path) => {
    if (!Array.isArray(value) || value.length > most)
      throw new ViewDataError(path, `a list of at most ${most}`, value);
    return value.map((v, i) => item(v, `${path}[${i}]`));
  };

export const optional =
  <T>(check: Check<T>): Check<T | undefined> =>
  (value, path) =>
    value === undefined || value === null ? undefined : check(value, path);

/** An object with these fields; a field whose check gives `undefined` is left out of the result. */
export const record =
  <F extends Record<string, Check<unknown>>>(fields: F): Check<Checked<F>> =>
  (value, path) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value))
      throw new ViewDataError(path, 'an object', value);
    const out: Record<string, unknown> = {};
    for (const [key, check] of Object.entries(fields)) {
      const own = Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
      const checked = check(own, path ? `${path}.${key}` : key);
      if (checked !== undefined) out[key] = checked;
    }
    return out as Checked<F>;
  };
