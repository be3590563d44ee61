/** Types of what the kernel adds to the global scope, for the type engine. */
export const GLOBALS_DECLARATION = `
type DisplayOptions = { id?: string; metadata?: Record<string, unknown> };
declare let display: {
  /** Shows a value as a cell shows its last value. */
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
  mime(data: Record<string, unknown>, options?: DisplayOptions): void;
  /** Replaces every output shown under an id. */
  update(id: string, value: unknown, metadata?: Record<string, unknown>): void;
  updateMime(id: string, data: Record<string, unknown>, metadata?: Record<string, unknown>): void;
  /** Removes the cell's output; with wait, when the next output comes. */
  clear(wait?: boolean): void;
};
declare let prompt: {
  /** Asks the reader for a line of text. */
  (question?: string): string;
  /** The same without showing what is typed. */
  password(question?: string): string;
};
declare let kernel: {
  comms: {
    register(target: string, answer: (comm: any, opened: { data: any; metadata: any; buffers: Uint8Array[] }) => void): void;
    open(target: string, data?: unknown, buffers?: Uint8Array[]): any;
  };
};
`;
