/** The figures last kept: tests/bench/figures.json, one entry a part, one line a figure, in git. */
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const FILE = path.resolve(import.meta.dirname, '..', 'figures.json');

/**
 * @typedef {object} KeptPart
 * @property {string} date when it was measured, UTC
 * @property {string} commit what was measured
 * @property {string} machine
 * @property {string} node
 * @property {number} load load average over the last minute before the part began
 * @property {number} seconds how long the part took
 * @property {readonly import('./figures.mjs').Figure[]} figures
 */

/** @returns {Record<string, KeptPart>} */
export const readKept = () =>
  fs.existsSync(FILE) ? JSON.parse(fs.readFileSync(FILE, 'utf8')) : {};

/** @param {Record<string, KeptPart>} kept */
export function writeKept(kept) {
  const parts = Object.entries(kept).map(([name, { figures, ...facts }]) => {
    const head = Object.entries(facts).map(
      ([k, v]) => `    ${JSON.stringify(k)}: ${JSON.stringify(v)},\n`,
    );
    const lines = figures.map((figure) => `      ${JSON.stringify(figure)}`).join(',\n');
    return `  ${JSON.stringify(name)}: {\n${head.join('')}    "figures": [\n${lines}\n    ]\n  }`;
  });
  fs.writeFileSync(FILE, `{\n${parts.join(',\n')}\n}\n`);
}

/** Where and when: what stands by every part. */
export function circumstances() {
  const [{ model } = { model: 'unknown processor' }] = os.cpus();
  const git = (...args) => execFileSync('git', args, { encoding: 'utf8' }).trim();
  let commit = 'unknown';
  try {
    commit = git('rev-parse', '--short', 'HEAD');
  } catch {
    // Not a checkout: the figures say so.
  }
  return {
    date: new Date().toISOString().slice(0, 10),
    commit,
    machine: `${os.availableParallelism()} cores, ${model.replace(/\s+/g, ' ').trim()}, ${os.type()}`,
    node: process.versions.node,
    load: Number(os.loadavg()[0].toFixed(1)),
  };
}
