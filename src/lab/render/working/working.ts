import { Rework, type WorkingChanges } from '../../../views/working/recompute.js';
import type { Slip } from '../../../views/working/left-out.js';
import { checkWorkingData } from '../../../views/working/working-check.js';
import type { WorkingData } from '../../../views/working/working-data.js';
import { sigmaText, workingText } from '../../../views/working/working-text.js';
import { copyButton } from '../controls.js';
import { h } from '../dom.js';
import { liveView, type Services, type ViewHandle, type ViewState } from '../view.js';
import { WorkingPanel } from './working-panel.js';
import { mergeChanges } from './working-state.js';
import { WorkingTable } from './working-table.js';

/** The working view. @throws ViewDataError when the data are not those of a working */
export function mountWorking(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  return new WorkingController(host, checkWorkingData(raw), services).handle;
}

class WorkingController {
  private readonly rework: Rework | undefined;
  private readonly table: WorkingTable;
  private readonly panel: WorkingPanel | undefined;
  private readonly result = h('p', { class: 'ch-sub ch-result', 'aria-live': 'polite' });
  private readonly notes = h('div');
  private readonly slip = h('p', { class: 'ch-flag ch-slip', role: 'status', hidden: true });
  private readonly listeners = new Set<(state: ViewState) => void>();
  private changes: WorkingChanges = {};
  private shown: WorkingData;

  constructor(
    private readonly host: HTMLElement,
    private readonly entered: WorkingData,
    private readonly services: Services,
  ) {
    const { t } = services;
    this.shown = entered;
    this.rework = entered.inputs && Rework.from(entered.inputs);
    const movables = this.rework?.movables ?? [];
    this.table = new WorkingTable(services, {
      ...(this.rework?.canForget ? { onLeaveOut: (rule, out) => this.leaveOut(rule, out) } : {}),
    });
    if (movables.length > 0)
      this.panel = new WorkingPanel(
        movables,
        services,
        (name, value) => this.move({ ...this.changes, [name]: value }),
        () => this.move({}),
      );
    host.replaceChildren(
      h(
        'section',
        { class: 'ch ch-working', 'aria-label': entered.title },
        h('h3', {}, entered.title),
        this.result,
        this.slip,
        this.table.element,
        this.notes,
        this.panel?.element,
        h(
          'div',
          { class: 'ch-bar-row ch-screen' },
          entered.rows.length > 1 ? this.openAllButton() : null,
          copyButton(t('Copy as text'), t('Copied'), () => workingText(this.shown)),
        ),
      ),
    );
    this.show(entered, undefined);
    // One correction by itself: its formula stands beside its figures from the start.
    if (entered.rows.length === 1) this.table.openAll(true);
  }

  get handle(): ViewHandle {
    return liveView(this.entered.viewId, this.listeners, {
      state: () => this.state(),
      set: (state) => this.move(mergeChanges(this.changes, state)),
      dispose: () => this.host.replaceChildren(),
    });
  }

  private openAllButton(): HTMLButtonElement {
    const { t } = this.services;
    const button: HTMLButtonElement = h(
      'button',
      {
        type: 'button',
        onclick: () => {
          const isOpen = !this.table.isAllOpen;
          this.table.openAll(isOpen);
          button.textContent = isOpen ? t('Close all steps') : t('Open all steps');
        },
      },
      t('Open all steps'),
    );
    return button;
  }

  private state(): ViewState {
    const last = this.shown.rows.at(-1);
    return {
      ...this.changes,
      value: last?.running ?? '',
      ...(last?.runningDeg === undefined ? {} : { valueDeg: last.runningDeg }),
      ...(last?.interceptNm === undefined ? {} : { interceptNm: last.interceptNm }),
    };
  }

  private leaveOut(rule: string, isOut: boolean): void {
    const others = (this.changes.leftOut ?? []).filter((r) => r !== rule);
    this.move({ ...this.changes, leftOut: isOut ? [...others, rule] : others });
  }

  /** Works out again with these changes; figures that cannot be are named and nothing else moves. */
  private move(changes: WorkingChanges): void {
    if (!this.rework) return;
    try {
      const { data, slip } = this.rework.with(changes);
      this.changes = changes;
      this.show(data, slip);
    } catch (error) {
      this.slip.hidden = false;
      this.slip.textContent = error instanceof Error ? error.message : String(error);
      return;
    }
    this.panel?.show(changes);
    for (const listener of this.listeners) listener(this.state());
  }

  private show(data: WorkingData, slip: Slip | undefined): void {
    const { t } = this.services;
    this.shown = data;
    const leftOut = new Set(slip?.rules ?? []);
    this.table.show(data, leftOut);
    this.result.replaceChildren(...this.summary(data));
    this.notes.replaceChildren(
      ...data.flags.map((flag) => h('p', { class: 'ch-flag' }, flag)),
      ...data.cautions.map((caution) => h('p', { class: 'ch-note' }, caution)),
    );
    this.slip.hidden = !slip;
    if (slip) this.slip.textContent = slipText(slip, data, t);
  }

  /** The value, how far it moved from what was entered, what was assumed. */
  private summary(data: WorkingData): (Node | string)[] {
    const { t } = this.services;
    const last = data.rows.at(-1);
    const sigma = sigmaText(data);
    const moved = movedText(this.entered.rows.at(-1), last);
    return [
      h('strong', {}, last?.running ?? data.value),
      sigma ? ` ${sigma}` : '',
      moved ? h('span', { class: 'ch-moved' }, ` · ${moved} ${t('from what was entered')}`) : '',
      data.assumed.length
        ? h('span', { class: 'ch-assumed' }, ` · ${t('assumed')}: ${data.assumed.join(', ')}`)
        : '',
    ];
  }
}

type Last = WorkingData['rows'][number] | undefined;

function movedText(before: Last, now: Last): string {
  const miles = (now?.interceptNm ?? NaN) - (before?.interceptNm ?? NaN);
  const arcmin = ((now?.runningDeg ?? NaN) - (before?.runningDeg ?? NaN)) * 60;
  const [size, unit] = Number.isFinite(miles) ? [miles, ' nm'] : [arcmin, '′'];
  if (!Number.isFinite(size) || Math.abs(size) < 0.05) return '';
  return `${size < 0 ? '−' : '+'}${Math.abs(size).toFixed(1)}${unit}`;
}

/** `Without this step the observed altitude is 2.8′ too great, and the position line 2.8 nm too far toward the body.` */
function slipText(slip: Slip, data: WorkingData, t: Services['t']): string {
  const titles = data.rows
    .filter((row) => slip.rules.includes(row.rule))
    .map((row) => row.title.toLowerCase());
  const size = Math.abs(slip.arcmin).toFixed(1);
  const sentence =
    slip.arcmin >= 0
      ? t(
          'Left out: {steps}. The observed altitude comes out {size}′ too great: the position line would lie {size} nm too far toward the body.',
        )
      : t(
          'Left out: {steps}. The observed altitude comes out {size}′ too small: the position line would lie {size} nm too far away from the body.',
        );
  return sentence.replace('{steps}', titles.join(', ')).replaceAll('{size}', size);
}
