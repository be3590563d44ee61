import fs from 'node:fs';

/** The file that a local import means: as written, with an extension, `.ts` for `.js`, or a folder's index. */
export function findLocalFile(base: string): string | null {
  const candidates = [
    base,
    base.replace(/\.(m?)js$/, '.$1ts'),
    `${base}.ts`,
    `${base}.mts`,
    `${base}.js`,
    `${base}.mjs`,
    `${base}/index.ts`,
    `${base}/index.js`,
  ];
  return candidates.find((file) => fs.statSync(file, { throwIfNoEntry: false })?.isFile()) ?? null;
}
