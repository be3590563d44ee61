import { EntryError } from '../units/errors.js';

/** Any value as text for a message: text as it is, the rest as JSON; never throws. @internal */
export function shown(value: unknown): string {
  if (typeof value === 'string') return value;
  try {
    return JSON.stringify(value) ?? typeof value;
  } catch {
    return typeof value;
  }
}

/** The value if it is of that class. @throws EntryError with the right form otherwise. @internal */
export function instanceOf<T>(kind: { readonly prototype: T }, value: unknown, form: string): T {
  if (value instanceof (kind as unknown as new () => unknown)) return value as T;
  throw new EntryError(form, shown(value));
}
