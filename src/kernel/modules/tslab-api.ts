/**
 * tslab's public API (`import { display } from 'tslab'`), so that notebooks written for tslab run here.
 * It shows through the kernel's own `display`.
 */
interface KernelDisplay {
  mime(data: Record<string, unknown>, options?: { id?: string }): void;
  updateMime(id: string, data: Record<string, unknown>): void;
}

const kernel = (): KernelDisplay => (globalThis as unknown as { display: KernelDisplay }).display;

class Display {
  #shown = false;
  constructor(private readonly id?: string) {}

  javascript = (text: string): void => this.raw('text/javascript', text);
  html = (text: string): void => this.raw('text/html', text);
  markdown = (text: string): void => this.raw('text/markdown', text);
  latex = (text: string): void => this.raw('text/latex', text);
  svg = (text: string): void => this.raw('image/svg+xml', text);
  png = (bytes: Uint8Array): void => this.raw('image/png', bytes);
  jpeg = (bytes: Uint8Array): void => this.raw('image/jpeg', bytes);
  gif = (bytes: Uint8Array): void => this.raw('image/gif', bytes);
  pdf = (bytes: Uint8Array): void => this.raw('application/pdf', bytes);
  text = (text: string): void => this.raw('text/plain', text);

  raw(contentType: string, data: string | Uint8Array): void {
    const bundle = { [contentType]: data };
    if (this.id && this.#shown) return kernel().updateMime(this.id, bundle);
    this.#shown = true;
    kernel().mime(bundle, this.id ? { id: this.id } : {});
  }
}

export const display = new Display();

/** A display whose output replaces itself each time. */
export function newDisplay(): Display {
  return new Display(crypto.randomUUID());
}

export const versions = { tslab: '1.0.22', typescript: '5.0.4', node: process.version };
