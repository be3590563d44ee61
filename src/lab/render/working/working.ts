import { checkWorkingData, sigmaText, workingText } from '../../../views/index.js';
import { h } from '../dom.js';
import { stillView, type Services, type ViewHandle } from '../view.js';
import { workingTable } from './working-table.js';

/** The working view. @throws ViewDataError when the data are not those of a working. */
export function mountWorking(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  const { t } = services;
  const data = checkWorkingData(raw);
  const sigma = sigmaText(data.sigmaArcmin);
  const copy = h('button', {
    type: 'button',
    onclick: async () => {
      await navigator.clipboard.writeText(workingText(data));
      copy.textContent = t('Copied');
      setTimeout(() => (copy.textContent = t('Copy as text')), 1500);
    },
  });
  copy.textContent = t('Copy as text');
  host.replaceChildren(
    h(
      'section',
      { class: 'ch ch-working', 'aria-label': data.title },
      h('h3', {}, data.title),
      h(
        'p',
        { class: 'ch-sub' },
        `${data.value}${sigma ? ` ${sigma}` : ''}`,
        data.assumed.length
          ? h('span', { class: 'ch-assumed' }, ` · ${t('assumed')}: ${data.assumed.join(', ')}`)
          : null,
      ),
      ...data.flags.map((flag) => h('p', { class: 'ch-flag' }, flag)),
      workingTable(data, services),
      ...data.cautions.map((caution) => h('p', { class: 'ch-note ch-caution' }, caution)),
      h('div', { class: 'ch-bar-row ch-screen' }, copy),
    ),
  );
  return stillView(() => host.replaceChildren());
}
