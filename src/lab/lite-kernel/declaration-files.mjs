/** The declarations that the page's type engine reads: TypeScript's library and what can be imported. */
import fs from 'node:fs';
import path from 'node:path';

const PACKAGES = ['astronomy-engine', 'arquero'];

/** lib.es2022.d.ts and all the files it refers to. */
function libraryFiles(folder, name, into) {
  const key = `/lib/${name}`;
  if (into[key] !== undefined) return;
  const text = fs.readFileSync(path.join(folder, name), 'utf8');
  into[key] = text;
  for (const [, lib] of text.matchAll(/<reference lib="([^"]+)"/g))
    libraryFiles(folder, `lib.${lib}.d.ts`, into);
}

function declarationsIn(folder, at, into) {
  for (const entry of fs.readdirSync(folder, { withFileTypes: true })) {
    const file = path.join(folder, entry.name);
    if (entry.isDirectory()) {
      if (entry.name !== 'node_modules') declarationsIn(file, `${at}/${entry.name}`, into);
    } else if (entry.name.endsWith('.d.ts') || entry.name === 'package.json')
      into[`${at}/${entry.name}`] = fs.readFileSync(file, 'utf8');
  }
}

/**
 * @param {string} root the checkout
 * @param {string} dist holds `types/`, the declarations of our library
 * @returns {Record<string, string>} texts by path
 */
export function declarationFiles(root, dist) {
  const files = {};
  const modules = path.join(root, 'node_modules');
  libraryFiles(path.join(modules, 'typescript', 'lib'), 'lib.es2022.d.ts', files);
  for (const name of PACKAGES)
    declarationsIn(path.join(modules, name), `/node_modules/${name}`, files);
  declarationsIn(path.join(dist, 'types'), '/node_modules/cocked-hat/types', files);
  const manifest = { name: 'cocked-hat', version: '0', types: './types/index.d.ts' };
  files['/node_modules/cocked-hat/package.json'] = JSON.stringify(manifest);
  return files;
}
