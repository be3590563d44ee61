import { checkPassageData, type PassageData } from '../../../views/passage/passage-data.js';
import { controlFigure, factorFigures } from '../../../views/passage/passage-figures.js';
import { tableText } from '../../../views/plain-table.js';
import { copyButton } from '../controls.js';
import { h } from '../dom.js';
import { plainTable } from '../plain-table.js';
import { Plot } from '../plot.js';
import { stillView, type Services, type ViewHandle } from '../view.js';
import { printElement } from '../print.js';

type Section = PassageData['sections'][number];

const sectionText = ({ title, sentences, table }: Section): string =>
  [title, ...sentences, ...(table ? [tableText({ caption: '', ...table })] : [])].join('\n');

function sectionElement({ title, sentences, table }: Section, services: Services): HTMLElement {
  return h(
    'section',
    {},
    h('h4', {}, title),
    ...sentences.map((sentence) => h('p', {}, sentence)),
    table ? plainTable({ caption: '', ...table }, services) : null,
  );
}

/** The report of a passage: what it says first, its plots, its tables; made to be printed. */
export function mountPassage(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  const { t } = services;
  const data = checkPassageData(raw);
  const plots: Plot[] = [];
  const plotOf = (figure: Parameters<Plot['show']>[0]): HTMLElement => {
    const plot = new Plot(services);
    plots.push(plot);
    plot.show(figure).catch(() => {
      plot.element.textContent = t('The plot cannot be drawn; its figures are in the tables.');
    });
    return h('div', { class: 'ch-passage-plot' }, plot.element);
  };
  const [first, ...others] = data.sections;
  const article = h(
    'section',
    { class: 'ch ch-passage', 'aria-label': data.title },
    h('h3', {}, data.title),
    first ? sectionElement(first, services) : null,
    data.control ? plotOf(controlFigure(data.control)) : null,
    h('div', { class: 'ch-passage-plots' }, ...factorFigures(data.factors).map(plotOf)),
    h(
      'div',
      { class: 'ch-passage-sections' },
      ...others.map((section) => sectionElement(section, services)),
    ),
    h(
      'div',
      { class: 'ch-bar-row ch-screen' },
      h('button', { type: 'button', onclick: () => printElement(article, data.title) }, t('Print')),
      copyButton(t('Copy as text'), t('Copied'), () => data.sections.map(sectionText).join('\n\n')),
    ),
  );
  host.replaceChildren(article);
  return stillView(() => {
    for (const plot of plots) plot.dispose();
    host.replaceChildren();
  });
}
