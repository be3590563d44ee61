import { readFileSync } from 'node:fs';
import path from 'node:path';
import { ROOT } from './bootstrap/paths.mjs';

/** Our version, as package.json names it. */
export function version(): string {
  const text = readFileSync(path.join(ROOT, 'package.json'), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
