import { Working } from '../core/working/index.js';
import { DISPLAY, type MimeBundle } from './mime.js';
import { workingBundle } from './working/index.js';

/** Gives all values of a class a display, out of sight of loops over their fields. */
function install<T>(target: { readonly prototype: T }, bundle: (value: T) => MimeBundle): void {
  Object.defineProperty(target.prototype, DISPLAY, {
    configurable: true,
    enumerable: false,
    value(this: T): MimeBundle {
      return bundle(this);
    },
  });
}

install<Working<unknown>>(Working as { prototype: Working<unknown> }, workingBundle);
