/** The tables of README and guide say what the kept figures say (npm run report); no clock is asked. */
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROOT } from '../src/cli/bootstrap/paths.mjs';
import { readKept, type KeptPart } from './bench/report/kept.mjs';
import { DOCUMENTS, regionsOf, withTables } from './bench/report/regions.mjs';
import { accuracy, faults } from './bench/report/tables/accuracy.mjs';
import { TABLES } from './bench/report/tables/index.mjs';

const read = (file: string) => fs.readFileSync(path.join(ROOT, file), 'utf8');

describe('the tables of figures', () => {
  const kept = readKept();

  it.each(DOCUMENTS)('%s shows the figures kept last (npm run report -- --tables)', (file) => {
    expect(withTables(read(file), kept)).toBe(read(file));
  });

  it('have each a place, and none is empty', () => {
    const texts = DOCUMENTS.map(read);
    const regions = texts.flatMap(regionsOf);
    expect([...new Set(regions)].sort()).toEqual(Object.keys(TABLES).sort());
    for (const text of texts) expect(text).not.toMatch(/<!-- report:\S+ -->\s*<!-- \/report -->/);
  });

  it('would show it if a figure, a row or a mark were changed by hand', () => {
    const text = read('README.md');
    const row = /^\| Moon: GHA.*$/m.exec(text)?.[0] as string;
    const better = text.replace(row, row.replace(/\d\.\d+/, '0.00001'));
    expect(better).not.toBe(text);
    expect(withTables(better, kept)).toBe(text);
    expect(() => withTables(text.replace('report:slips', 'report:slip'), kept)).toThrow(/no table/);
  });

  it('leave out no check of accuracy', () => {
    const part = kept['accuracy'] as KeptPart;
    expect(faults(part.figures)).toEqual([]);
    const [first] = part.figures as [KeptPart['figures'][number]];
    const stray = { ...first, about: { ...first.about, group: 'Elsewhere', subject: 'Stray (1)' } };
    const table = accuracy({ accuracy: { ...part, figures: [...part.figures, stray] } });
    expect(table).toContain('| Stray (1): GHA |');
    expect(faults([...part.figures, first])).toEqual([]);
    const without = part.figures.filter(({ about }) => about?.['group'] !== 'Time');
    expect(faults(without).filter((fault) => fault.endsWith('no check'))).toHaveLength(6);
  });
});
