import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { publish, reproduce } from '../../src/publish/index.js';
import { compareOutputs } from '../../src/publish/reproduce/compare.js';
import { ROOT } from '../support/root.js';

let home: string;
let files: string[];
beforeAll(async () => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'again-'));
  const out = path.join(home, 'class');
  const published = await publish(
    [path.join(ROOT, 'notebooks', 'exercises', '4-star-round.ipynb')],
    { out },
  );
  files = published.files.map((f) => path.join(out, f)).filter((f) => /\.(?:html|ipynb)$/.test(f));
});
afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

/** A copy of a published file with one piece of text changed. */
function altered(file: string, change: (text: string) => string): string {
  const copy = path.join(home, `altered${path.extname(file)}`);
  const text = fs.readFileSync(file, 'utf8');
  const changed = change(text);
  expect(changed).not.toBe(text);
  fs.writeFileSync(copy, changed);
  return copy;
}

describe('an edition run again', () => {
  it('comes to the same in every number, page or notebook, student or teacher', async () => {
    expect(files.length).toBeGreaterThanOrEqual(4);
    for (const file of files) {
      const again = await reproduce(file);
      expect(again.differences).toEqual([]);
      expect(again.numbers).toBeGreaterThan(50);
      expect(again.changes).toEqual([]);
    }
  });
  it('fails loudly when one printed figure was other than it comes out now', async () => {
    const page = files.find((f) => f.endsWith('.html')) as string;
    const copy = altered(page, (text) => {
      const json = text.indexOf('id="notebook"');
      return (
        text.slice(0, json) +
        text
          .slice(json)
          .replace(
            /(\d+°\d\d)\.(\d)′/,
            (_all, head: string, tenth: string) => `${head}.${(Number(tenth) + 1) % 10}′`,
          )
      );
    });
    const again = await reproduce(copy);
    expect(again.same).toBe(false);
    expect(again.differences[0]?.cell).toBe('question');
  });
  it('tells of another library and other data', async () => {
    const page = files.find((f) => f.endsWith('.html')) as string;
    const copy = altered(page, (text) =>
      text
        .replace(/"library":"[^"]+"/, '"library":"0.0.1"')
        .replace(/("nav-stars.json":")[0-9a-f]{8}/, '$100000000'),
    );
    const { changes } = await reproduce(copy);
    expect(changes.join(' ')).toMatch(/version 0\.0\.1 .* nav-stars\.json is not the one/);
  });
  it('is refused when it is no edition', async () => {
    const file = path.join(home, 'plain.html');
    fs.writeFileSync(file, '<p>hello</p>');
    await expect(reproduce(file)).rejects.toThrow(/does not carry its notebook/);
    fs.writeFileSync(
      file,
      '<script type="application/json" id="notebook">{"edition":{},"cells":[]}</script>',
    );
    await expect(reproduce(file)).rejects.toThrow(/what edition it is/);
  });
});

describe('numbers compared', () => {
  const text = (value: string) => [{ type: 'data', data: { 'text/plain': value } }] as const;
  it.each([
    ['41.31000000000000', '41.31000000000001', true],
    ['41.3100000000', '41.3100001000', false],
    ['41°18.6′', '41°18.7′', false],
    ['−2.8′', '+2.8′', false],
    ['Hc 41°18.6′', 'Ho 41°18.6′', false],
  ])('%s and %s: the same is %s', (a, b, same) => {
    expect(compareOutputs('c', text(a), text(b)).differences.length === 0).toBe(same);
  });
});
