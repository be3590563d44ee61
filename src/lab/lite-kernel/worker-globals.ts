/** Types of what a worker has besides JavaScript's own globals, as far as notebooks use it. */
export const WORKER_GLOBALS = `
interface Console {
  log(...data: any[]): void; info(...data: any[]): void; debug(...data: any[]): void;
  warn(...data: any[]): void; error(...data: any[]): void; dir(value: any): void;
  table(data: any, columns?: string[]): void; trace(...data: any[]): void;
  assert(condition?: boolean, ...data: any[]): void; group(...data: any[]): void; groupEnd(): void;
  count(label?: string): void; countReset(label?: string): void;
  time(label?: string): void; timeEnd(label?: string): void; timeLog(label?: string, ...data: any[]): void;
}
declare var console: Console;
declare function setTimeout(callback: (...args: any[]) => void, ms?: number, ...args: any[]): any;
declare function setInterval(callback: (...args: any[]) => void, ms?: number, ...args: any[]): any;
declare function clearTimeout(id?: any): void;
declare function clearInterval(id?: any): void;
declare function queueMicrotask(callback: () => void): void;
declare function structuredClone<T>(value: T): T;
declare function atob(text: string): string;
declare function btoa(text: string): string;
declare function fetch(input: any, init?: any): Promise<any>;
declare var performance: { now(): number; timeOrigin: number };
declare var crypto: { randomUUID(): string; getRandomValues<T>(array: T): T };
declare class URL { constructor(url: string, base?: string | URL); href: string; origin: string; pathname: string; search: string; hash: string; host: string; searchParams: URLSearchParams; toString(): string; }
declare class URLSearchParams { constructor(init?: any); get(name: string): string | null; set(name: string, value: string): void; has(name: string): boolean; toString(): string; }
declare class TextEncoder { encode(text?: string): Uint8Array; }
declare class TextDecoder { constructor(label?: string); decode(bytes?: any): string; }
declare class AbortSignal { readonly aborted: boolean; readonly reason: any; throwIfAborted(): void; addEventListener(type: string, listener: any): void; }
declare class AbortController { readonly signal: AbortSignal; abort(reason?: any): void; }
interface ImportMeta { readonly url: string }
`;
