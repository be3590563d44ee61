import { h } from './dom.js';
import type { Services } from './view.js';

/** Hands the reader a file. */
export function download(name: string, content: Blob | string, type = 'text/plain'): void {
  const blob = typeof content === 'string' ? new Blob([content], { type }) : content;
  const url = URL.createObjectURL(blob);
  h('a', { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

const VARIABLE = /var\((--ch-[\w-]+)(?:,[^)]*(?:\([^)]*\))?)?\)/g;

/** The markup of a drawing that stands alone: its colours and font as they are in the page now. */
export function standaloneSvg(svg: SVGSVGElement): string {
  const style = getComputedStyle(svg);
  const copy = svg.cloneNode(true) as SVGSVGElement;
  for (const element of [copy, ...copy.querySelectorAll('*')])
    for (const name of ['fill', 'stroke']) {
      const value = element.getAttribute(name);
      if (value?.includes('var('))
        element.setAttribute(
          name,
          value.replace(VARIABLE, (_, role: string) => style.getPropertyValue(role).trim()),
        );
    }
  copy.setAttribute('font-family', style.fontFamily.replaceAll('"', "'"));
  return new XMLSerializer().serializeToString(copy);
}

async function png(svg: SVGSVGElement, scale: number): Promise<Blob> {
  const url = URL.createObjectURL(new Blob([standaloneSvg(svg)], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = h('canvas', {
      width: Math.round(image.width * scale),
      height: Math.round(image.height * scale),
    });
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve, reject) =>
      canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('no picture was made')))),
    );
  } finally {
    URL.revokeObjectURL(url);
  }
}

/** Buttons that save a drawing as SVG and as PNG of twice its size. */
export function saveDrawingButtons(
  drawing: () => SVGSVGElement | null,
  name: string,
  { t }: Services,
): HTMLButtonElement[] {
  const button = (label: string, onclick: () => void) =>
    h('button', { type: 'button', onclick }, label);
  return [
    button(t('Save SVG'), () => {
      const svg = drawing();
      if (svg) download(`${name}.svg`, standaloneSvg(svg), 'image/svg+xml');
    }),
    button(t('Save PNG'), async () => {
      const svg = drawing();
      if (svg) download(`${name}.png`, await png(svg, 2));
    }),
  ];
}
