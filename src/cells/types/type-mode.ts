/** What a type error does: stop the cell, warn, or nothing because types are not checked. */
export type TypeMode = 'error' | 'warn' | 'off';

/** The mode that a cell asks for in its first comments: `// types: warn`, or `// @ts-nocheck`. */
export function typeMode(source: string): TypeMode | null {
  for (const line of source.split('\n')) {
    const text = line.trim();
    if (text === '') continue;
    if (!text.startsWith('//')) return null;
    if (/^\/\/\s*@ts-nocheck\b/.test(text)) return 'off';
    const match = /^\/\/\s*types:\s*(error|warn|off)\s*$/.exec(text);
    if (match) return match[1] as TypeMode;
  }
  return null;
}
