/**
 * Regions of documents that the report writes: between `<!-- report:NAME -->` and `<!-- /report -->`. What stands around them is
 * written by hand.
 */
import fs from 'node:fs';
import path from 'node:path';
import { TABLES } from './tables/index.mjs';

const ROOT = path.resolve(import.meta.dirname, '..', '..', '..');
/** Documents that hold regions. */
export const DOCUMENTS = ['README.md', 'src/guide/uncertainty.md'];
const REGION = /(<!-- report:([\w-]+) -->\n)([\s\S]*?)(<!-- \/report -->)/g;

/** A document with its regions written from the kept figures; a region whose parts were never measured stays as it is. */
export function withTables(text, kept) {
  return text.replace(REGION, (whole, open, name, old, close) => {
    const table = TABLES[name];
    if (!table)
      throw new Error(`there is no table ${name}; there are ${Object.keys(TABLES).join(', ')}`);
    return table.parts.every((part) => kept[part])
      ? `${open}\n${table.write(kept)}\n${close}`
      : whole;
  });
}

/** Names of the regions in a document. @param {string} text */
export const regionsOf = (text) => [...text.matchAll(REGION)].map(([, , name]) => name);

/** Regions that do not say what the kept figures say, as `README.md: accuracy`. */
export function disagreements(kept) {
  return DOCUMENTS.flatMap((file) => {
    const text = fs.readFileSync(path.join(ROOT, file), 'utf8');
    const now = [...text.matchAll(REGION)];
    const due = [...withTables(text, kept).matchAll(REGION)];
    return now.flatMap(([whole, , name], i) => (whole === due[i][0] ? [] : [`${file}: ${name}`]));
  });
}

/** Writes the regions anew; says which documents changed. */
export function writeTables(kept) {
  return DOCUMENTS.filter((file) => {
    const place = path.join(ROOT, file);
    const text = fs.readFileSync(place, 'utf8');
    const due = withTables(text, kept);
    if (due !== text) fs.writeFileSync(place, due);
    return due !== text;
  });
}
