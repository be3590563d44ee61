/** One page of the guide as HTML that needs nothing else but style.css beside it. */
import katexPlugin from '@vscode/markdown-it-katex';
import MarkdownIt from 'markdown-it';

const withFormulas = katexPlugin.default ?? katexPlugin;

/** Anchors of headings: lower case, words joined by hyphens. */
const slug = (text) =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');

/** What a sample shows and would run over the edge, where that is sentences and not columns. */
const WIDTH = 84;
const isProse = (text) => {
  const long = text.split('\n').filter((line) => [...line].length > WIDTH);
  return long.length > 0 && long.every((line) => !/\S {2,}\S.* {2,}\S/.test(line));
};

function renderer() {
  // MathML needs neither fonts nor a style sheet, and screen readers read it.
  const md = new MarkdownIt({ html: false, typographer: false }).use(withFormulas, {
    output: 'mathml',
    throwOnError: true,
  });
  md.renderer.rules.heading_open = (tokens, index) => {
    const { tag } = tokens[index];
    return `<${tag} id="${slug(tokens[index + 1].content)}">`;
  };
  const fence = md.renderer.rules.fence;
  md.renderer.rules.fence = (tokens, index, ...rest) => {
    const html = fence(tokens, index, ...rest);
    const { info, content } = tokens[index];
    return info === 'text' && isProse(content)
      ? html.replace('<pre>', '<pre class="prose">')
      : html;
  };
  md.renderer.rules.table_open = () => '<div class="wide"><table>\n';
  md.renderer.rules.table_close = () => '</table></div>\n';
  md.renderer.rules.link_open = (tokens, index, options, _, self) => {
    const href = tokens[index].attrGet('href') ?? '';
    // Pages link to each other as files of this folder, so that the links work in the checkout too.
    tokens[index].attrSet('href', href.replace(/^([\w-]+)\.md(#.*)?$/, '$1.html$2'));
    return self.renderToken(tokens, index, options);
  };
  return md;
}

const escaped = (text) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/"/g, '&quot;');

function navigation(groups, here, api) {
  const item = ({ name, title }) =>
    name === here
      ? `<li><a aria-current="page" href="${name}.html">${escaped(title)}</a></li>`
      : `<li><a href="${name}.html">${escaped(title)}</a></li>`;
  const lists = groups.map(({ heading, pages }) => {
    const more =
      api && heading === 'Reference' ? ['<li><a href="api/index.html">The library</a></li>'] : [];
    return `<h2>${escaped(heading)}</h2><ul>${[...pages.map(item), ...more].join('')}</ul>`;
  });
  return `<nav id="contents" aria-label="Pages of the guide"><details open><summary>Contents</summary>${lists.join('')}</details></nav>`;
}

/**
 * @param {{ name: string, title: string, markdown: string }} page
 * @param {ReturnType<typeof import('./contents.mjs').contents>} groups all pages, for the side column
 * @param {{ version: string, api: boolean }} about api: whether the reference of the library lies in api/
 */
export function pageHtml(page, groups, { version, api }) {
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(page.title)} · Cocked Hat</title>
<link rel="stylesheet" href="style.css">
</head>
<body>
<a class="skip" href="#text">Skip to the text</a>
<header><a href="index.html">Cocked Hat</a> <span>guide, version ${escaped(version)}</span> <a class="to-contents" href="#contents">Contents</a></header>
<div class="columns">
${navigation(groups, page.name, api)}
<main id="text">
${renderer().render(page.markdown.replace(/<!--[\s\S]*?-->\n?/g, ''))}</main>
</div>
<footer>Never rely on one means of fixing position. Official publications, local rules and licensed practice come first.</footer>
</body>
</html>
`;
}
