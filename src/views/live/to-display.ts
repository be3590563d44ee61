import { DISPLAY, type MimeBundle } from '../mime.js';

/** The part of tslab's `display` object that is needed. */
export interface RawDisplay {
  /** Sends a bundle of one kind of content. @param contentType a MIME type @param data its text */
  raw(contentType: string, data: string): void;
}

function bundleOf(value: unknown): MimeBundle {
  const method =
    typeof value === 'object' && value !== null
      ? (value as { [DISPLAY]?: () => MimeBundle })[DISPLAY]
      : undefined;
  return method?.call(value) ?? { 'text/plain': String(value) };
}

/**
 * Shows a value of this library in a plain tslab kernel, whose outputs hold one format at a time: HTML where the
 * value has it, else text. `import { display } from 'tslab'; toDisplay(display, observedAltitude(sight))`.
 */
export function toDisplay(display: RawDisplay, value: unknown): void {
  const bundle = bundleOf(value);
  for (const type of ['text/html', 'image/svg+xml', 'text/plain'] as const) {
    const content = bundle[type];
    if (typeof content === 'string') return display.raw(type, content);
  }
}
