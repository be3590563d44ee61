import type { EphemerisPieces } from '../../../views/inputs/ephemeris-pieces.js';
import type { ResidualPoint } from '../../../views/residuals/residual-data.js';
import { formatAngle, formatBearing, formatCorrection } from '../../../core/units/index.js';
import { Rework } from '../../../views/working/recompute.js';
import { iso } from '../../../views/residuals/point-parts.js';
import { standardisedText } from '../../../views/residuals/residual-text.js';
import { h } from '../dom.js';
import type { Services, ViewHandle } from '../view.js';
import { mountWorking } from '../working/working.js';

/** What opens when a sight is picked: its figures, a way to reject or restore it, its working. */
export class SightDetail {
  readonly element = h('div', { class: 'ch-picked', hidden: true });
  private working: ViewHandle | undefined;

  constructor(
    private readonly services: Services,
    private readonly ephemeris: EphemerisPieces | undefined,
    private readonly onJudge: (key: string, reason: string | undefined) => void,
  ) {}

  show(point: ResidualPoint): void {
    const { t } = this.services;
    this.dispose();
    const host = h('div');
    this.element.replaceChildren(
      h(
        'p',
        {},
        h('strong', {}, `${point.body} ${iso(point.timeMs).slice(11)} UTC`),
        ` · Ho ${formatAngle(point.altitudeDeg)} · Zn ${formatBearing(point.azimuthDeg)}`,
        ` · ${t('residual')} ${formatCorrection(point.residualArcmin)} (${standardisedText(point)})`,
      ),
      this.judgement(point),
      host,
    );
    this.element.hidden = false;
    this.showWorking(point, host);
  }

  private judgement(point: ResidualPoint): HTMLElement {
    const { t } = this.services;
    if (!point.isAccepted)
      return h(
        'p',
        { class: 'ch-bar-row' },
        h('span', {}, `${t('Rejected')}${point.reason ? `: ${point.reason}` : ''}`),
        h(
          'button',
          { type: 'button', onclick: () => this.onJudge(point.key, undefined) },
          t('Restore this sight'),
        ),
      );
    const reason = h('input', { type: 'text', maxlength: 200, size: 28, required: true });
    const form = h(
      'form',
      {
        class: 'ch-bar-row',
        onsubmit: (event: Event) => {
          event.preventDefault();
          if (reason.value.trim()) this.onJudge(point.key, reason.value.trim());
          else reason.setAttribute('aria-invalid', 'true');
        },
      },
      h('label', {}, `${t('Reason')} `, reason),
      h('button', { type: 'submit' }, t('Reject this sight')),
    );
    return form;
  }

  private showWorking(point: ResidualPoint, host: HTMLElement): void {
    if (point.fields === undefined) return;
    try {
      const inputs = {
        procedure: 'observedAltitude',
        fields: point.fields,
        ...(this.ephemeris ? { ephemeris: this.ephemeris } : {}),
      };
      const { data } = Rework.from(inputs).with({});
      this.working = mountWorking(host, { ...data, inputs }, this.services);
    } catch (error) {
      host.textContent = error instanceof Error ? error.message : String(error);
    }
  }

  dispose(): void {
    this.working?.dispose();
    this.working = undefined;
  }
}
