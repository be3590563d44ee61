import { ChartModel } from '../../../views/chart/chart-model.js';
import { fixSummary } from '../../../views/chart/chart-text.js';
import {
  checkResidualsData,
  fixPoints,
  type ResidualPoint,
  type ResidualsData,
} from '../../../views/residuals/residual-data.js';
import { laidOutFigure, type ResidualLayout } from '../../../views/residuals/residual-figure.js';
import { runBodies } from '../../../views/residuals/run-figure.js';
import { residualsText } from '../../../views/residuals/residual-text.js';
import { choiceControl, copyButton, switchControl } from '../controls.js';
import { h } from '../dom.js';
import { Plot } from '../plot.js';
import { chooseSight, onChosenSight } from '../selection.js';
import { liveView, type Services, type ViewHandle, type ViewState } from '../view.js';
import { PointTable } from './point-table.js';
import { SightDetail } from './sight-detail.js';

/** The residuals view. @throws ViewDataError, RangeError when the data are not residuals */
export function mountResiduals(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  const data = checkResidualsData(raw);
  const model = data.fix && ChartModel.from(data.fix);
  return new ResidualsController(host, data, model, services).handle;
}

interface Rejected {
  readonly key: string;
  readonly reason: string;
}

class ResidualsController {
  private readonly plot: Plot;
  private readonly table: PointTable;
  private readonly detail: SightDetail;
  private readonly standardised: ReturnType<typeof switchControl>;
  private readonly summary = h('p', { class: 'ch-sub ch-result', 'aria-live': 'polite' });
  private readonly key = h('p', { class: 'ch-sub' });
  private readonly listeners = new Set<(state: ViewState) => void>();
  private readonly stop: () => void;
  private rejected: readonly Rejected[];
  private points: readonly ResidualPoint[];
  private layout: ResidualLayout = 'time';
  private isStandardised = false;

  constructor(
    private readonly host: HTMLElement,
    private readonly data: ResidualsData,
    private readonly model: ChartModel | undefined,
    private readonly services: Services,
  ) {
    const { t } = services;
    this.points = data.points;
    this.rejected = data.points
      .filter((p) => !p.isAccepted)
      .map(({ key, reason = '' }) => ({ key, reason }));
    this.plot = new Plot(services, (key, isPicked) => {
      chooseSight(key);
      if (isPicked) this.pick(key);
    });
    this.table = new PointTable(services, (key) => this.pick(key));
    this.detail = new SightDetail(services, data.ephemeris, (key, reason) =>
      this.judge(key, reason),
    );
    const runs = runBodies(data.points).map(
      (body) => [`run ${body}`, `${t('run of')} ${body}`] as const,
    );
    const layouts = [
      ['time', t('time')],
      ['altitude', t('altitude')],
      ['azimuth', t('azimuth')],
      ['body', t('body')],
      ['observer', t('observer')],
      ...runs,
    ] as const;
    this.layout = layouts.find(([value]) => value === data.laidOutBy)?.[0] ?? 'time';
    const along = choiceControl(t('Laid out by'), layouts, this.layout, (value) => {
      this.layout = value as ResidualLayout;
      this.show();
    });
    this.standardised = switchControl(t('In standard deviations'), false, (isOn) => {
      this.isStandardised = isOn;
      this.show();
    });
    host.replaceChildren(
      h(
        'section',
        { class: 'ch ch-residuals', 'aria-label': data.title },
        h('h3', {}, data.title),
        this.summary,
        h('div', { class: 'ch-bar-row ch-screen' }, along.element, this.standardised.element),
        this.plot.element,
        this.key,
        this.detail.element,
        h(
          'details',
          { class: 'ch-panel', open: data.points.length <= 24 },
          h('summary', {}, t('All residuals as a table')),
          h('div', { class: 'ch-scroll' }, this.table.element),
          ...(data.note === undefined ? [] : [h('p', { class: 'ch-sub' }, data.note)]),
        ),
        h(
          'div',
          { class: 'ch-bar-row ch-screen' },
          copyButton(t('Copy as text'), t('Copied'), () =>
            residualsText({ ...this.data, points: this.points }),
          ),
        ),
      ),
    );
    this.stop = onChosenSight((key) => this.table.mark(key));
    this.show();
  }

  get handle(): ViewHandle {
    return liveView(this.data.viewId, this.listeners, {
      state: () => this.state(),
      set: (state) => this.set(state),
      dispose: () => {
        this.stop();
        this.plot.dispose();
        this.detail.dispose();
        this.host.replaceChildren();
      },
    });
  }

  private state(): ViewState {
    return { rejected: this.rejected, residualsArcmin: this.residualsByKey() };
  }
  private residualsByKey(): Record<string, number> {
    return Object.fromEntries(this.points.map((p) => [p.key, p.residualArcmin]));
  }

  private set(state: unknown): void {
    const given = (state as { rejected?: unknown } | null)?.rejected;
    if (!Array.isArray(given)) return;
    const known = new Set(this.points.map((p) => p.key));
    this.rejected = given.flatMap((item: unknown) => {
      const { key, reason } = (item ?? {}) as Record<string, unknown>;
      return typeof key === 'string' && known.has(key)
        ? [{ key, reason: typeof reason === 'string' ? reason.slice(0, 500) : '' }]
        : [];
    });
    this.changed();
  }

  /** Rejects a sight with a reason, or restores it. */
  private judge(key: string, reason: string | undefined): void {
    const others = this.rejected.filter((r) => r.key !== key);
    this.rejected = reason === undefined ? others : [...others, { key, reason }];
    this.changed();
    this.pick(key);
  }

  private changed(): void {
    const reasons = new Map(this.rejected.map(({ key, reason }) => [key, reason]));
    const before = new Map(this.data.points.map((p) => [p.key, p]));
    const points = this.model ? fixPoints(this.model, [...reasons.keys()]) : this.data.points;
    this.points = points.map(({ reason: _, ...p }) => {
      const fields = before.get(p.key)?.fields;
      const reason = reasons.get(p.key);
      return {
        ...p,
        isAccepted: reason === undefined,
        ...(fields === undefined ? {} : { fields }),
        ...(reason ? { reason } : {}),
      };
    });
    this.show();
    const state = this.state();
    for (const listener of this.listeners) listener(state);
  }

  private pick(key: string): void {
    chooseSight(key);
    const point = this.points.find((p) => p.key === key);
    if (point) this.detail.show(point);
  }

  private show(): void {
    const { layout, points, isStandardised } = this;
    // A run is drawn as altitudes: there is nothing to standardise.
    this.standardised.element.hidden = layout.startsWith('run ');
    this.plot.show(laidOutFigure(points, layout, isStandardised)).catch(() => {
      this.plot.element.textContent = this.services.t(
        'The plot cannot be drawn; its figures are in the table below.',
      );
    });
    this.key.textContent = this.keyText();
    this.table.show(points);
    this.summary.textContent = this.summaryText();
  }

  /** What bars and strips are. */
  private keyText(): string {
    const { t } = this.services;
    const bars = t('Bars: one standard deviation of a sight.');
    if (this.layout.startsWith('run ')) return bars;
    const strips = t('Strips: one and two standard deviations.');
    return this.isStandardised ? strips : `${bars} ${strips}`;
  }

  private summaryText(): string {
    const { t } = this.services;
    const out = this.rejected.length;
    const rejected = out ? ` · ${out} ${t('rejected')}` : '';
    const { fix } = this.model?.with({ off: this.rejected.map((r) => r.key) }) ?? {};
    return `${t('Against')} ${this.data.reference}${fix ? ` · ${fixSummary(fix)}` : ''}${rejected}`;
  }
}
