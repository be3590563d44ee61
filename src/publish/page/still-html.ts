import sanitize from 'sanitize-html';
import { escapeHtml } from '../../views/escape.js';
import type { PageOutput } from '../client/page-data.js';

const SVG_TAGS = [
  'svg',
  'g',
  'path',
  'line',
  'polyline',
  'polygon',
  'circle',
  'ellipse',
  'rect',
  'text',
  'tspan',
  'title',
  'desc',
  'defs',
  'clipPath',
  'use',
  'marker',
  'pattern',
];
const HTML_TAGS = [
  'section',
  'div',
  'span',
  'p',
  'h1',
  'h2',
  'h3',
  'h4',
  'table',
  'caption',
  'thead',
  'tbody',
  'tfoot',
  'tr',
  'th',
  'td',
  'code',
  'pre',
  'strong',
  'em',
  'b',
  'i',
  'small',
  'sub',
  'sup',
  'ul',
  'ol',
  'li',
  'dl',
  'dt',
  'dd',
  'br',
  'hr',
  'abbr',
  'figure',
  'figcaption',
  'details',
  'summary',
];
const ATTRIBUTES = [
  'class',
  'title',
  'role',
  'scope',
  'colspan',
  'rowspan',
  'aria-*',
  'id',
  'x',
  'y',
  'x1',
  'y1',
  'x2',
  'y2',
  'cx',
  'cy',
  'r',
  'rx',
  'ry',
  'd',
  'points',
  'width',
  'height',
  'viewBox',
  'transform',
  'fill',
  'stroke',
  'stroke-*',
  'font-*',
  'text-anchor',
  'dominant-baseline',
  'opacity',
  'fill-*',
  'clip-path',
  'clipPathUnits',
  'dx',
  'dy',
  'preserveAspectRatio',
  'textLength',
  'xmlns',
  'patternUnits',
  'style',
];

/** HTML or SVG of an output with everything taken out that is not text, table or drawing. */
export function cleanMarkup(markup: string): string {
  return sanitize(markup, {
    allowedTags: [...HTML_TAGS, ...SVG_TAGS],
    allowedAttributes: { '*': ATTRIBUTES },
    allowedStyles: { '*': { '*': [/^(?!.*(?:url|expression)\s*\()[^;<>]*$/i] } },
    parser: { lowerCaseTags: false, lowerCaseAttributeNames: false },
  });
}

const PICTURES = ['image/png', 'image/jpeg', 'image/gif'];
const BASE64 = /^[A-Za-z0-9+/=\s]*$/;

const unstyled = (text: string): string => text.replace(/\u001b\[[0-9;]*m/g, '');

/** One output as it stands in the page before any program runs, and in one that never does. */
export function stillHtml(output: PageOutput): string {
  if (output.type === 'stream')
    return `<pre class="stream ${output.name}">${escapeHtml(unstyled(output.text))}</pre>`;
  if (output.type === 'error')
    return `<pre class="error">${escapeHtml(unstyled(output.traceback))}</pre>`;
  return `<div class="output">${stillData(output.data)}</div>`;
}

function stillData(data: Readonly<Record<string, unknown>>): string {
  const markup = data['text/html'] ?? data['image/svg+xml'];
  if (typeof markup === 'string') return cleanMarkup(markup);
  const picture = PICTURES.find((mime) => typeof data[mime] === 'string');
  const text = typeof data['text/plain'] === 'string' ? data['text/plain'] : '';
  if (picture && BASE64.test(data[picture] as string))
    return `<img alt="${escapeHtml(text)}" src="data:${picture};base64,${(data[picture] as string).replace(/\s/g, '')}">`;
  return `<pre>${escapeHtml(unstyled(text))}</pre>`;
}
