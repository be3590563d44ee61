/** The guide: its pages as they are built, the command that opens them, and the docstrings behind the reference. */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { ROOT } from '../src/cli/bootstrap/paths.mjs';
import { guidePage } from '../src/cli/commands/guide.js';
import { buildGuide } from '../src/guide/build.mjs';
import { contents } from '../src/guide/contents.mjs';
import { sight, type SightFields } from '../src/core/index.js';
import { readLibrary, referenceCss } from '../src/guide/reference.mjs';

const dist = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-guide-'));
const made = path.join(dist, 'guide');
afterAll(() => fs.rmSync(dist, { recursive: true }));
await buildGuide({ root: ROOT, dist });
const pages = contents().flatMap((group) => group.pages);
const html = (name: string) => fs.readFileSync(path.join(made, `${name}.html`), 'utf8');

describe('the guide', () => {
  it('names every field of a sight', () => {
    const page = fs.readFileSync(path.join(ROOT, 'src/guide/sight.md'), 'utf8');
    const table = page.slice(0, page.indexOf('```'));
    // The refusal of an unknown field lists those there are.
    let refusal = '';
    try {
      sight({ colour: 'blue' } as unknown as SightFields);
    } catch (error) {
      refusal = String(error);
    }
    const fields = /It has ([\w, ]+)\./.exec(refusal)?.[1]?.split(', ') ?? [];
    expect(fields.length).toBeGreaterThan(20);
    expect(fields.filter((field) => !table.includes(`\`${field}\``))).toEqual([]);
  });

  it.each(pages.map(({ name }) => name))(
    '%s stands alone: no script, nothing from elsewhere',
    (name) => {
      const text = html(name);
      expect(text).not.toMatch(/<script|@import/i);
      expect(text.match(/(?:src|href)="(?:https?:)?\/\/[^"]*"/g) ?? []).toEqual([]);
      expect(text).toContain('lang="en-GB"');
      expect(text.match(/<h1/g)).toHaveLength(1);
    },
  );

  it.each(pages.map(({ name }) => name))(
    '%s leads only to pages and headings that are there',
    (name) => {
      for (const [, page, heading] of html(name).matchAll(/href="([\w-]+)\.html(?:#([^"]*))?"/g)) {
        expect(fs.existsSync(path.join(made, `${page}.html`)), `${name} leads to ${page}`).toBe(
          true,
        );
        if (heading) expect(html(page as string)).toContain(`id="${decodeURI(heading)}"`);
      }
    },
  );

  it('writes formulas as MathML, and no comment of the source', () => {
    expect(html('uncertainty')).toContain('<math');
    expect(html('uncertainty')).not.toContain('&lt;!--');
  });

  it('is found by the names of its pages; another name is answered with the nearest', () => {
    expect(guidePage('glossary', made)).toBe(path.join(made, 'glossary.html'));
    expect(() => guidePage('glosary', made)).toThrow(/did you mean "glossary"/);
    expect(() => guidePage('index', path.join(dist, 'nowhere'))).toThrow(/has not been made/);
  });
});

describe('the reference of the library', () => {
  it('has the colours of the pages, light and dark', () => {
    const sheet = (light: string, dark: string): string =>
      ['paper', 'panel', 'ink', 'faint', 'rule', 'accent']
        .map((role) => `--${role}: #${light}${role.length};`)
        .join('\n') + (dark && `@media (prefers-color-scheme: dark) {\n${sheet(dark, '')}`);
    const css = referenceCss(sheet('aa', 'bb'));
    expect(css).toContain('--light-color-text: #aa3;');
    expect(css).toContain('--dark-color-link: #bb6;');
    expect(() => referenceCss(sheet('aa', ''))).toThrow('no paper for dark');
  });
  it('has a docstring for every public name', async () => {
    const { complaints, project } = await readLibrary(ROOT);
    expect(complaints).toEqual([]);
    expect(project.children?.length).toBeGreaterThan(300);
  });
});
