import katex from '@vscode/markdown-it-katex';
import MarkdownIt from 'markdown-it';

type Plugin = (md: InstanceType<typeof MarkdownIt>, options: object) => void;
// The package is CommonJS: its function may stand under `default`.
const withFormulas = ((katex as unknown as { default?: Plugin }).default ?? katex) as Plugin;

const markdown = new MarkdownIt({ html: false, linkify: false, typographer: false });
// MathML needs neither fonts nor style sheets.
markdown.use(withFormulas, { output: 'mathml', throwOnError: false, trust: false });
// Links lead nowhere but to other pages; pictures only from the notebook itself.
markdown.validateLink = (url) => /^(?:https?:|mailto:|attachment:|#|[\w./-]+$)/i.test(url.trim());
const PICTURE = /^data:image\/[\w.+-]+;base64,[A-Za-z0-9+/=]*$/;
const plainImage = markdown.renderer.rules.image;
markdown.renderer.rules.image = (tokens, at, options, env, self) => {
  const token = tokens[at];
  const name = /^attachment:(.+)$/.exec(String(token?.attrGet('src') ?? ''))?.[1];
  const { pictures = {} } = env as { pictures?: Readonly<Record<string, string>> };
  // An address is written with its blanks encoded.
  const key = name && [name, decodeURI(name)].find((n) => Object.hasOwn(pictures, n));
  const found = key ? (pictures[key] ?? '') : '';
  if (PICTURE.test(found)) token?.attrSet('src', found);
  return plainImage?.(tokens, at, options, env, self) ?? '';
};

const ATOM = '<m[nio](?: [^>]*)?>[^<]*</m[nio]>';
const PRIMES = '(?:<mo[^>]*>′</mo>|<mrow>(?:<mo[^>]*>′</mo>)+</mrow>)';
const RAISED = new RegExp(`<msup>(${ATOM})(${PRIMES})</msup>`, 'g');
const RAISED_BY_INDEX = new RegExp(`<msubsup>(${ATOM}${ATOM})(${PRIMES})</msubsup>`, 'g');

/** A prime is raised by its own shape: as a superscript, without a font for formulas, it floats above its figure. */
const primesInLine = (html: string): string =>
  html
    .replace(RAISED, '<mrow>$1$2</mrow>')
    .replace(RAISED_BY_INDEX, '<mrow><msub>$1</msub>$2</mrow>');

/** Markdown of a notebook as HTML; HTML in it stands as text, formulas become MathML. */
export const markdownHtml = (
  source: string,
  pictures: Readonly<Record<string, string>> = {},
): string => primesInLine(markdown.render(source, { pictures }));

/** One formula as MathML, for views that show it when opened. */
export function formulaMathml(latex: string): string {
  return primesInLine(markdown.renderInline(`$${latex}$`));
}
