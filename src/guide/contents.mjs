/** Which pages the guide has and in which order; a page that is not there is left out, one that is not listed comes last. */
import fs from 'node:fs';
import path from 'node:path';

export const GUIDE = import.meta.dirname;

/** Headings of the side column and the pages below each, by file name without its ending. */
const ORDER = [
  ['Begin', ['index', 'getting-started', 'trouble']],
  ['Sights', ['sight', 'fix', 'slips', 'methods']],
  ['Records', ['log', 'views']],
  ['Lessons', ['exercises', 'publishing', 'class-server']],
  ['Reference', ['command-line', 'uncertainty', 'data', 'glossary']],
];

/** The text of a page's first heading. */
export function titleOf(markdown) {
  return /^# (.+)$/m.exec(markdown)?.[1] ?? 'Guide';
}

function pageNamed(name) {
  // Comments mark the regions that npm run report writes; they are no part of the page.
  const markdown = fs
    .readFileSync(path.join(GUIDE, `${name}.md`), 'utf8')
    .replace(/^<!--.*-->\n/gm, '');
  return { name, title: titleOf(markdown), markdown };
}

/** @returns {{ heading: string, pages: { name: string, title: string, markdown: string }[] }[]} */
export function contents() {
  const there = new Set(
    fs
      .readdirSync(GUIDE)
      .filter((file) => file.endsWith('.md'))
      .map((file) => file.slice(0, -3)),
  );
  const groups = ORDER.map(([heading, names]) => ({
    heading,
    pages: names.filter((name) => there.delete(name)).map(pageNamed),
  }));
  const rest = [...there].sort().map(pageNamed);
  if (rest.length > 0) groups.push({ heading: 'More', pages: rest });
  return groups.filter(({ pages }) => pages.length > 0);
}
