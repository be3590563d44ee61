import { bundleOf, encodeBundle, plainJson, type Bundle } from '../values/bundle.js';
import type { CellHost } from './host.js';

type Metadata = Readonly<Record<string, unknown>>;

export interface DisplayOptions {
  /** Names the output, so that `display.update` can replace it. */
  readonly id?: string;
  readonly metadata?: Metadata;
}

export interface Display {
  /** Shows a value as a cell would show it as its last value. */
  (value: unknown, options?: DisplayOptions): void;
  html(text: string, options?: DisplayOptions): void;
  markdown(text: string, options?: DisplayOptions): void;
  latex(text: string, options?: DisplayOptions): void;
  svg(text: string, options?: DisplayOptions): void;
  text(text: string, options?: DisplayOptions): void;
  json(value: unknown, options?: DisplayOptions): void;
  javascript(text: string, options?: DisplayOptions): void;
  png(bytes: Uint8Array | string, options?: DisplayOptions): void;
  jpeg(bytes: Uint8Array | string, options?: DisplayOptions): void;
  gif(bytes: Uint8Array | string, options?: DisplayOptions): void;
  pdf(bytes: Uint8Array | string, options?: DisplayOptions): void;
  /** Shows data by MIME type as they are. */
  mime(data: Readonly<Record<string, unknown>>, options?: DisplayOptions): void;
  /** Replaces every output shown under an id. */
  update(id: string, value: unknown, metadata?: Metadata): void;
  /** The same with data by MIME type. */
  updateMime(id: string, data: Readonly<Record<string, unknown>>, metadata?: Metadata): void;
  /** Removes the cell's output; with `wait`, when the next output comes. */
  clear(wait?: boolean): void;
}

const TYPES = {
  html: 'text/html',
  markdown: 'text/markdown',
  latex: 'text/latex',
  svg: 'image/svg+xml',
  text: 'text/plain',
  json: 'application/json',
  javascript: 'text/javascript',
  png: 'image/png',
  jpeg: 'image/jpeg',
  gif: 'image/gif',
  pdf: 'application/pdf',
} as const;

/** The `display` that cells have. */
export function makeDisplay(host: CellHost): Display {
  const send = (bundle: Bundle, { id, metadata }: DisplayOptions, update = false): void => {
    const merged = {
      data: bundle.data,
      metadata: plainJson({ ...bundle.metadata, ...metadata }) as Metadata,
    };
    const event = { type: 'display', update, ...merged, ...(id ? { id } : {}) } as const;
    host.emit(event, host.currentRun());
  };
  const show = (value: unknown, options: DisplayOptions, update = false): void => {
    const bundle = bundleOf(value);
    if (bundle instanceof Promise) void bundle.then((b) => send(b, options, update));
    else send(bundle, options, update);
  };
  const mime: Display['mime'] = (data, options = {}) =>
    send({ data: encodeBundle(data), metadata: {} }, options);
  const typed = Object.entries(TYPES).map(([name, type]) => [
    name,
    (value: unknown, options: DisplayOptions = {}) => mime({ [type]: value }, options),
  ]);
  return Object.assign((value: unknown, options: DisplayOptions = {}) => show(value, options), {
    ...Object.fromEntries(typed),
    mime,
    update: (id: string, value: unknown, metadata: Metadata = {}) =>
      show(value, { id, metadata }, true),
    updateMime: (id: string, data: Readonly<Record<string, unknown>>, metadata: Metadata = {}) =>
      send({ data: encodeBundle(data), metadata }, { id }, true),
    clear: (wait = false) => host.emit({ type: 'clear', wait }, host.currentRun()),
  }) as Display;
}
