type Child = Node | string | number | null | undefined | false;
type Props = Record<string, unknown>;

const SVG = 'http://www.w3.org/2000/svg';

function fill(element: Element, props: Props, children: readonly Child[]): void {
  for (const [key, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith('on') && typeof value === 'function')
      element.addEventListener(key.slice(2), value as EventListener);
    else element.setAttribute(key, value === true ? '' : String(value));
  }
  for (const child of children)
    if (child !== null && child !== undefined && child !== false)
      element.append(typeof child === 'number' ? String(child) : child);
}

/** An HTML element. Text children become text nodes: nothing from data is ever parsed as HTML. */
export function h<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  props: Props = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  fill(element, props, children);
  return element;
}

/** An SVG element, as `h`. */
export function s<K extends keyof SVGElementTagNameMap>(
  tag: K,
  props: Props = {},
  ...children: Child[]
): SVGElementTagNameMap[K] {
  const element = document.createElementNS(SVG, tag);
  fill(element, props, children);
  return element;
}
