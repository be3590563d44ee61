import { inspect } from 'node-inspect-extracted';
import { inspectValue } from '../../cells/index.js';

/** A value under its name; `path` is an expression that leads to it, empty where there is none. */
export interface Part {
  readonly name: string;
  readonly path: string;
  readonly value: unknown;
}

/** Most characters of a value on its line, and most parts that are listed of one. */
const LONGEST = 200;
const MOST_PARTS = 500;

const ONE_LINE = {
  depth: 1,
  breakLength: Infinity,
  maxArrayLength: 20,
  maxStringLength: LONGEST,
} as const;

/** A value on one line: what its class says of it, else as a cell prints it. */
export function textOf(value: unknown): string {
  const said = saidOf(value) ?? safely(() => inspect(value, ONE_LINE));
  const line = said.replaceAll(/\s*\n\s*/g, ' ');
  return line.length > LONGEST ? `${line.slice(0, LONGEST)} …` : line;
}

/** The text of an object whose class has a `toString` of its own, with the name of the class. */
function saidOf(value: unknown): string | null {
  if (typeof value !== 'object' || value === null) return null;
  const { constructor } = Object.getPrototypeOf(value) ?? {};
  if (typeof constructor !== 'function' || isNative(constructor)) return null;
  if (value instanceof Error) return null;
  const method: unknown = (value as { toString?: unknown }).toString;
  if (typeof method !== 'function' || isNative(method)) return null;
  const text = safely(() => String(method.call(value)));
  return `${constructor.name} ${text}`;
}

const sourceOf = (f: object): string => Function.prototype.toString.call(f);

function isNative(f: object): boolean {
  return /\{\s*\[native code\]\s*\}\s*$/.test(sourceOf(f));
}

function safely(text: () => string): string {
  try {
    return text();
  } catch (error) {
    return `(${String(error)})`;
  }
}

/** What is in a value, found when asked for; null for a value with nothing in it. Getters are not called. */
export function partsOf(value: unknown, path: string): (() => readonly Part[]) | null {
  if (typeof value !== 'object' || value === null) return null;
  const entries = entriesOf(value);
  if (entries) return () => listed(entries(), path);
  if (Reflect.ownKeys(value).length === 0 || isEmptyList(value)) return null;
  return () => listed(propertiesOf(value), path);
}

const isEmptyList = (value: object): boolean => Array.isArray(value) && value.length === 0;

type Entry = readonly [name: string, value: unknown, step: string | null];

function listed(entries: Iterable<Entry>, path: string): Part[] {
  const parts: Part[] = [];
  for (const [name, value, step] of entries) {
    if (parts.length >= MOST_PARTS) {
      parts.push({ name: '…', path: '', value: new Rest() });
      break;
    }
    parts.push({ name, value, path: step === null ? '' : path + step });
  }
  return parts;
}

/** Stands for the parts that are not listed. */
class Rest {
  [inspect.custom](): string {
    return `only the first ${MOST_PARTS} are listed`;
  }
}

function entriesOf(value: object): (() => Iterable<Entry>) | null {
  if (value instanceof Map)
    return value.size === 0
      ? null
      : function* (): Iterable<Entry> {
          for (const [key, item] of value) yield [textOf(key), item, null];
        };
  if (value instanceof Set)
    return value.size === 0
      ? null
      : function* (): Iterable<Entry> {
          let n = 0;
          for (const item of value) yield [String(n++), item, null];
        };
  return null;
}

function* propertiesOf(value: object): Iterable<Entry> {
  for (const key of Reflect.ownKeys(value)) {
    const property = Reflect.getOwnPropertyDescriptor(value, key);
    if (!property || (Array.isArray(value) && key === 'length')) continue;
    const name = typeof key === 'symbol' ? `[${key.toString()}]` : key;
    const held = 'value' in property ? (property.value as unknown) : new Getter();
    yield [name, held, stepTo(key, Array.isArray(value))];
  }
}

class Getter {
  [inspect.custom](): string {
    return '(computed when read)';
  }
}

function stepTo(key: string | symbol, isList: boolean): string | null {
  if (typeof key === 'symbol') return null;
  if (isList && /^\d+$/.test(key)) return `[${key}]`;
  return /^[\p{ID_Start}$_][\p{ID_Continue}$]*$/u.test(key) ? `.${key}` : `[${inspectValue(key)}]`;
}
