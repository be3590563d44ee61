import { listBundle } from '../../views/values/row.js';
import { inspectValue } from './inspect.js';
import { tableHtml } from './table-like.js';

/** Data of one output by MIME type, as notebooks keep it. */
export interface Bundle {
  readonly data: Readonly<Record<string, unknown>>;
  readonly metadata: Readonly<Record<string, unknown>>;
}

/** A value with a method under this symbol says itself how it is shown. */
export const DISPLAY = Symbol.for('Jupyter.display');

/** How a value is shown: what it says of itself, and text in any case. */
export function bundleOf(value: unknown): Bundle | Promise<Bundle> {
  const method = displayMethod(value);
  if (!method) {
    const list = listBundle(value);
    if (list) return { data: list, metadata: {} };
    const html = tableHtml(value);
    const text = { 'text/plain': isSeveralLines(value) ? value : inspectValue(value) };
    return { data: html === null ? text : { 'text/html': html, ...text }, metadata: {} };
  }
  const shown = method.call(value);
  return shown instanceof Promise ? shown.then((s) => complete(s, value)) : complete(shown, value);
}

/** Text of several lines, a file or a report, is shown as it stands: in quotes it would be one long line full of `\n`. */
const isSeveralLines = (value: unknown): value is string =>
  typeof value === 'string' && value.includes('\n');

/** Bytes become base64 and objects plain JSON, as the notebook format and messages want them. */
export function encodeBundle(data: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(data).map(([type, value]) => [type, encode(value)]));
}

function encode(value: unknown): unknown {
  if (value instanceof Uint8Array) return base64(value);
  return typeof value === 'object' && value !== null ? plainJson(value) : value;
}

/** A value as its JSON says it; what JSON cannot hold is left out. */
export function plainJson(value: unknown): unknown {
  const text = JSON.stringify(value);
  return text === undefined ? null : JSON.parse(text);
}

function displayMethod(value: unknown): ((this: unknown) => unknown) | null {
  if (value === null || (typeof value !== 'object' && typeof value !== 'function')) return null;
  const method = (value as Record<symbol, unknown>)[DISPLAY];
  return typeof method === 'function' ? (method as (this: unknown) => unknown) : null;
}

function complete(shown: unknown, value: unknown): Bundle {
  const { data, metadata } = asBundle(shown);
  const text = 'text/plain' in data ? {} : { 'text/plain': inspectValue(value) };
  return {
    data: encodeBundle({ ...data, ...text }),
    metadata: plainJson(metadata) as Bundle['metadata'],
  };
}

/** A display method may return the data by MIME type, or `{ data, metadata }`. */
function asBundle(shown: unknown): Bundle {
  if (shown === null || typeof shown !== 'object')
    throw new TypeError(
      `a method under Symbol.for('Jupyter.display') must return data by MIME type, such as { 'text/html': … }; it returned ${inspectValue(shown)}`,
    );
  const record = shown as Record<string, unknown>;
  if (typeof record['data'] !== 'object' || record['data'] === null || 'text/plain' in record)
    return { data: record, metadata: {} };
  return {
    data: record['data'] as Record<string, unknown>,
    metadata: (record['metadata'] ?? {}) as Record<string, unknown>,
  };
}

function base64(bytes: Uint8Array): string {
  let binary = '';
  for (let i = 0; i < bytes.length; i += 0x8000)
    binary += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(binary);
}
