import { escapeHtml } from '../escape.js';

/** A drawing as plain data: written as markup into a saved notebook, or built as elements in a page. */
export interface SvgNode {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children: readonly (SvgNode | string)[];
}

type Attributes = Readonly<Record<string, string | number | undefined>>;
type Child = SvgNode | string | null | undefined | false;

/** A node; attributes that are undefined and children that are null or false are left out. */
export function svg(tag: string, attributes: Attributes = {}, ...children: Child[]): SvgNode {
  const given = Object.entries(attributes).filter(
    (entry): entry is [string, string | number] => entry[1] !== undefined,
  );
  return {
    tag,
    attributes: Object.fromEntries(given),
    children: children.filter(
      (child): child is SvgNode | string =>
        child !== null && child !== undefined && child !== false,
    ),
  };
}

/** The whole of a drawing, in pixels; on a narrow page it shrinks. */
export const svgDrawing = (
  { width, height }: { readonly width: number; readonly height: number },
  attributes: Attributes = {},
  ...children: Child[]
): SvgNode =>
  svg(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: 'img',
      ...attributes,
      style: ['max-width:100%;height:auto', attributes['style']].filter(Boolean).join(';'),
    },
    ...children,
  );

const SAFE_NAME = /^[a-zA-Z][\w:-]*$/;

/** The markup of a drawing; texts and attribute values are escaped. */
export function svgMarkup(node: SvgNode | string): string {
  if (typeof node === 'string') return escapeHtml(node);
  const attributes = Object.entries(node.attributes)
    .filter(([name]) => SAFE_NAME.test(name))
    .map(([name, value]) => ` ${name}="${escapeHtml(String(value))}"`)
    .join('');
  const open = `<${node.tag}${attributes}`;
  if (node.children.length === 0) return `${open}/>`;
  return `${open}>${node.children.map(svgMarkup).join('')}</${node.tag}>`;
}

/** A pixel coordinate with a tenth of a pixel, which is all a drawing needs. */
export const px = (value: number): number => Math.round(value * 10) / 10;

/** Path data through points, in pixels. */
export function pathData(points: readonly (readonly [number, number])[], closed = false): string {
  if (points.length === 0) return '';
  const [first, ...rest] = points.map(([x, y]) => `${px(x)},${px(y)}`);
  return `M${first}${rest.length ? `L${rest.join(' ')}` : ''}${closed ? 'Z' : ''}`;
}
