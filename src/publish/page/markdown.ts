import katex from '@vscode/markdown-it-katex';
import MarkdownIt from 'markdown-it';

type Plugin = (md: InstanceType<typeof MarkdownIt>, options: object) => void;
// The package is CommonJS: its function may stand under `default`.
const withFormulas = ((katex as unknown as { default?: Plugin }).default ?? katex) as Plugin;

const markdown = new MarkdownIt({ html: false, linkify: false, typographer: false });
// MathML needs neither fonts nor style sheets.
markdown.use(withFormulas, { output: 'mathml', throwOnError: false, trust: false });
// Links lead nowhere but to other pages; pictures only from the notebook itself.
markdown.validateLink = (url) => /^(?:https?:|mailto:|#|[\w./-]+$)/i.test(url.trim());

/** Markdown of a notebook as HTML; HTML in it stands as text, formulas become MathML. */
export const markdownHtml = (source: string): string => markdown.render(source);

/** One formula as MathML, for views that show it when opened. */
export function formulaMathml(latex: string): string {
  return markdown.renderInline(`$${latex}$`);
}
