import { indexErrorFromHorizon, indexErrorFromSun } from '../../../core/sextant/index.js';
import { checkSvg, perpendicularitySvg } from '../../../views/instrument/field-svg.js';
import type { InstrumentData } from '../../../views/instrument/instrument-data.js';
import { MIRROR_ERRORS, type CheckBy } from '../../../views/instrument/mirror-errors.js';
import { readingText } from '../../../views/instrument/misreading.js';
import { workingData, workingText } from '../../../views/working/index.js';
import { choiceControl, figureControl } from '../controls.js';
import { h } from '../dom.js';
import { svgElement } from '../svg-dom.js';
import type { Services } from '../view.js';

const amount = (arcmin: number) => `${Math.abs(arcmin).toFixed(1)}′`;
const onOff = (arcmin: number) => `${amount(arcmin)} ${arcmin < 0 ? 'off' : 'on'} the arc`;

/** The index check by horizon, star and the Sun's diameters, and the errors of the mirrors in their order. */
export function checkPane(data: InstrumentData, { t }: Services): HTMLElement {
  let by: CheckBy = 'horizon';
  let reading = 0;
  let side = 0;
  let taken: number[] = [];
  const picture = h('div', { class: 'ch-field' });
  const shows = h('p', { class: 'ch-result', 'aria-live': 'polite' });
  const result = h('pre', { class: 'ch-index-result', 'aria-live': 'polite' });
  const drum = figureControl({
    label: t('Turn the drum'),
    unit: '′',
    least: -40,
    most: 40,
    step: 0.1,
    entered: 0,
    note: (v) => onOff(v),
    onMove: (v) => {
      reading = v;
      draw();
    },
  });
  const draw = () => {
    const { indexErrorArcmin, sdArcmin } = data;
    picture.replaceChildren(
      svgElement(
        checkSvg({ by, readingArcmin: reading, indexErrorArcmin, sideErrorArcmin: side, sdArcmin }),
      ),
    );
    shows.textContent = `${t('The drum shows')} ${readingText(reading / 60)}. ${t(INSTRUCTIONS[by])}`;
  };
  const work = () => {
    try {
      result.textContent = taken.length === 0 ? '' : workingOf(by, taken, data.sdArcmin);
    } catch (error) {
      result.textContent = error instanceof Error ? error.message : String(error);
    }
  };
  const method = choiceControl(
    t('Check by'),
    [
      ['horizon', t('the horizon')],
      ['star', t('a star')],
      ['Sun', t('the Sun’s diameters')],
    ],
    by,
    (value) => {
      by = value as CheckBy;
      taken = [];
      work();
      draw();
    },
  );
  draw();
  return h(
    'div',
    {},
    h('p', { class: 'ch-flag', role: 'note' }, t(EYE_SAFETY)),
    h(
      'div',
      { class: 'ch-check-columns' },
      picture,
      h(
        'div',
        {},
        shows,
        method.element,
        drum.element,
        h(
          'div',
          { class: 'ch-bar-row' },
          h(
            'button',
            { type: 'button', onclick: () => ((taken = [...taken, reading]), work()) },
            t('Take this reading'),
          ),
          h('button', { type: 'button', onclick: () => ((taken = []), work()) }, t('Start again')),
        ),
        result,
      ),
    ),
    h('h4', {}, t('Errors of the mirrors, in the order of adjustment')),
    h('div', { class: 'ch-mirrors' }, ...mirrorCards((value) => ((side = value), draw()), t)),
  );
}

const EYE_SAFETY =
  'Never look at the Sun through the sextant without the right shades before both mirrors: it blinds at once and without pain.';

const INSTRUCTIONS: Readonly<Record<CheckBy, string>> = {
  horizon: 'Turn until the horizon runs through as one line.',
  star: 'Turn until the two stars are one.',
  Sun: 'Shades in before both mirrors. Turn until the limbs touch on one side and take it; then on the other, and take that.',
};

function workingOf(by: CheckBy, taken: readonly number[], sdArcmin: number): string {
  if (by !== 'Sun') return workingText(workingData(indexErrorFromHorizon(taken.map(onOff))));
  const on = taken.filter((r) => r >= 0).map(amount);
  const off = taken.filter((r) => r < 0).map(amount);
  if (on.length === 0 || off.length === 0)
    return `${on.length ? `${on.join(', ')} on the arc` : `${off.join(', ')} off the arc`}; now the other side`;
  return workingText(workingData(indexErrorFromSun({ on, off, semidiameter: amount(sdArcmin) })));
}

function mirrorCards(onSide: (arcmin: number) => void, t: Services['t']): HTMLElement[] {
  return MIRROR_ERRORS.map((error) => {
    const drawing = h('div', { class: 'ch-field' });
    const draw = (value: number) => {
      const star = { by: 'star', readingArcmin: 0, sdArcmin: 16 } as const;
      drawing.replaceChildren(
        svgElement(
          error.key === 'perpendicularity'
            ? perpendicularitySvg(value)
            : error.key === 'side'
              ? checkSvg({ ...star, indexErrorArcmin: 0, sideErrorArcmin: value })
              : checkSvg({ ...star, by: 'horizon', indexErrorArcmin: value, sideErrorArcmin: 0 }),
        ),
      );
    };
    const control = figureControl({
      label: t(error.key === 'index' ? 'How far apart' : 'How much it leans'),
      unit: '′',
      least: -10,
      most: 10,
      step: 0.5,
      entered: 5,
      onMove: (value) => {
        draw(value);
        if (error.key === 'side') onSide(value);
      },
    });
    draw(5);
    return h(
      'section',
      {},
      h('h5', {}, t(error.name)),
      drawing,
      control.element,
      h('p', {}, t(error.looks)),
      h('p', { class: 'ch-sub' }, t(error.cure)),
    );
  });
}
