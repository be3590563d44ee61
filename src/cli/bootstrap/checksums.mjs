/** SHA-256 sums of the data files: `npm run checksums` writes them, `cocked-hat doctor` compares. */
import crypto from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';

/** The list's file name, in the form that sha256sum writes and checks. */
export const CHECKSUMS = 'SHA256SUMS';

const sumOf = (file) => crypto.createHash('sha256').update(fs.readFileSync(file)).digest('hex');

/** Data files below a folder, as slash-separated names; scripts and explanations are not data. */
function dataFiles(folder) {
  return fs
    .readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\.(md|py|mjs|ts)$/.test(entry.name))
    .map((entry) => path.relative(folder, path.join(entry.parentPath ?? entry.path, entry.name)))
    .map((name) => name.split(path.sep).join('/'))
    .filter((name) => name !== CHECKSUMS)
    .sort();
}

function readList(folder) {
  const file = path.join(folder, CHECKSUMS);
  if (!fs.existsSync(file)) return new Map();
  const lines = fs.readFileSync(file, 'utf8').split('\n').filter(Boolean);
  return new Map(lines.map((line) => [line.slice(66), line.slice(0, 64)]));
}

/** Writes the list anew; returns the number of files. */
export function writeChecksums(folder) {
  const names = dataFiles(folder);
  const lines = names.map((name) => `${sumOf(path.join(folder, name))}  ${name}\n`);
  fs.writeFileSync(path.join(folder, CHECKSUMS), lines.join(''));
  return names.length;
}

/** How the files of a folder differ from its list; `count` is the number of listed files. */
export function compareChecksums(folder) {
  const listed = readList(folder);
  const present = new Set(dataFiles(folder));
  const names = [...listed.keys()];
  return {
    count: listed.size,
    missing: names.filter((name) => !present.has(name)),
    differing: names.filter(
      (name) => present.has(name) && sumOf(path.join(folder, name)) !== listed.get(name),
    ),
    unlisted: [...present].filter((name) => !listed.has(name)),
  };
}
