/** A kernel that finds this method on a value shows the bundle it returns. */
export const DISPLAY: unique symbol = Symbol.for('Jupyter.display') as never;

/** What a notebook cell shows: MIME type to content, richest first, always with `text/plain`. */
export type MimeBundle = Record<string, unknown> & { 'text/plain': string };

/** Gives all values of a class a display, out of sight of loops over their fields. */
export function installDisplay<T>(
  target: { readonly prototype: T },
  bundle: (value: T) => MimeBundle,
): void {
  Object.defineProperty(target.prototype, DISPLAY, {
    configurable: true,
    enumerable: false,
    value(this: T): MimeBundle {
      return bundle(this);
    },
  });
}
