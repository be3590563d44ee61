import { solarSystemNames, starNames } from '../../../core/sky/body-names.js';
import { h } from '../../../lab/render/dom.js';
import { targetText, type Target } from '../mark.js';
import { head, key } from './keys.js';
import type { Frame, Place } from './screen.js';
import { sunCaution } from './sheet.js';

const STARS = [...starNames].sort();
const ON_A_PAGE = 12;
const PAGES = Math.ceil(STARS.length / ON_A_PAGE);
const starsOf = (page: number) => STARS.slice((page - 1) * ON_A_PAGE, page * ON_A_PAGE);
const rangeOf = (page: number) => `${starsOf(page)[0]} to ${starsOf(page).at(-1)}`;

const solar: readonly Target[] = solarSystemNames.flatMap((body): Target[] =>
  body === 'Sun' || body === 'Moon'
    ? [
        { body, limb: 'lower' },
        { body, limb: 'upper' },
      ]
    : [{ body, limb: '' }],
);

/** Chooses the body, with its limb: for a mark, or for the next one. */
export function bodiesScreen(
  frame: Frame,
  { id, page = 0 }: Place & { at: 'bodies' },
): HTMLElement {
  const { deck } = frame;
  const back = () => frame.go(id === undefined ? { at: 'sheet' } : { at: 'reading', id });
  const take = (target: Target) => {
    deck.target = target;
    if (id !== undefined) deck.change(id, target, 'choice of body');
    back();
  };
  const of = (target: Target) => key(targetText(target), () => take(target));
  const turn = (to: number) =>
    frame.go({ at: 'bodies', ...(id === undefined ? {} : { id }), page: to });
  return h(
    'main',
    { class: 'bodies' },
    head(page === 0 ? 'Body' : `Stars ${rangeOf(page)}`, back),
    page === 0 ? sunCaution() : null,
    h(
      'div',
      { class: 'two' },
      ...(page === 0 ? solar : starsOf(page).map((body): Target => ({ body, limb: '' }))).map(of),
    ),
    page === 0
      ? h(
          'div',
          { class: 'two foot', role: 'group', 'aria-label': 'Stars' },
          // Any star is two touches away, not as many as its page.
          ...Array.from({ length: PAGES }, (_, i) => key(rangeOf(i + 1), () => turn(i + 1))),
        )
      : h(
          'div',
          { class: 'row foot' },
          key(page === 1 ? 'Sun, Moon, planets' : 'Before', () => turn(page - 1)),
          page < PAGES ? key('After', () => turn(page + 1)) : null,
        ),
  );
}
