import { PAPER } from '../svg/inks.js';
import { pathData, px, svg, type SvgNode } from '../svg/svg-node.js';
import type { SkyBody } from './sky-model.js';

const PLANETS: ReadonlySet<string> = new Set(['Venus', 'Mars', 'Jupiter', 'Saturn']);
const DISC_PX = 7;

/** Half the size of a body's mark: brighter is bigger. */
export const markRadius = ({ body, magnitude }: Pick<SkyBody, 'body' | 'magnitude'>): number =>
  body === 'Sun' || body === 'Moon'
    ? DISC_PX
    : Math.min(6, Math.max(2, 4.4 - 0.9 * (magnitude ?? 2)));

/** Told apart by shape: a ring with a point for the Sun, a horned disc for the Moon, a lozenge for a planet, a disc for a star. */
export function bodyMark(
  b: SkyBody,
  x: number,
  y: number,
  { ink, isSet }: { readonly ink: string; readonly isSet: boolean },
): SvgNode {
  const r = markRadius(b);
  const disc = (radius: number, fill: string) =>
    svg('circle', { cx: px(x), cy: px(y), r: px(radius), fill, stroke: ink, 'stroke-width': 1.4 });
  const ring = isSet
    ? svg('circle', {
        cx: px(x),
        cy: px(y),
        r: px(r + 3),
        fill: 'none',
        stroke: ink,
        'stroke-width': 1.2,
      })
    : null;
  if (b.body === 'Sun') return svg('g', {}, disc(r, PAPER), disc(1.5, ink), ring);
  if (b.body === 'Moon') {
    const horn = `M${px(x)},${px(y - r)}A${r},${r} 0 0 1 ${px(x)},${px(y + r)}A${px(r * 1.8)},${px(r * 1.8)} 0 0 0 ${px(x)},${px(y - r)}Z`;
    return svg('g', {}, disc(r, PAPER), svg('path', { d: horn, fill: ink }), ring);
  }
  if (PLANETS.has(b.body)) {
    const half = r + 1.5;
    const lozenge = pathData(
      [
        [x, y - half],
        [x + half, y],
        [x, y + half],
        [x - half, y],
      ],
      true,
    );
    return svg('g', {}, svg('path', { d: lozenge, fill: ink }), ring);
  }
  return svg('g', {}, disc(r, ink), ring);
}
