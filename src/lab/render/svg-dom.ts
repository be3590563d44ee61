import type { SvgNode } from '../../views/svg/svg-node.js';

const SVG = 'http://www.w3.org/2000/svg';
/** Tags that a drawing may hold; nothing else is ever made from data. */
const TAGS = new Set([
  'svg',
  'g',
  'path',
  'line',
  'rect',
  'circle',
  'text',
  'title',
  'clipPath',
  'tspan',
]);

/** The elements of a drawing. */
export function svgElement(node: SvgNode): SVGElement {
  if (!TAGS.has(node.tag)) throw new TypeError(`a drawing has no <${node.tag}>`);
  const element = document.createElementNS(SVG, node.tag);
  for (const [name, value] of Object.entries(node.attributes))
    if (!name.startsWith('on')) element.setAttribute(name, String(value));
  for (const child of node.children)
    element.append(typeof child === 'string' ? child : svgElement(child));
  return element;
}
