import { fixSummary } from '../../../views/chart/chart-text.js';
import { regionsSvg } from '../../../views/uncertainty/regions-svg.js';
import { checkUncertaintyData } from '../../../views/uncertainty/uncertainty-data.js';
import type { UncertaintyData } from '../../../views/uncertainty/uncertainty-data.js';
import { UncertaintyModel, type CauseScale } from '../../../views/uncertainty/uncertainty-model.js';
import {
  causeName,
  causesTable,
  gainsTable,
  levelsTable,
} from '../../../views/uncertainty/uncertainty-text.js';
import { tableText } from '../../../views/plain-table.js';
import { copyButton, figureControl } from '../controls.js';
import { h } from '../dom.js';
import { plainTable } from '../plain-table.js';
import { saveDrawingButtons } from '../save.js';
import { svgElement } from '../svg-dom.js';
import { liveView, type Services, type ViewHandle, type ViewState } from '../view.js';

/** The uncertainty view. @throws ViewDataError, RangeError when the data are not those of a fix */
export function mountUncertainty(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  const data = checkUncertaintyData(raw);
  const model = UncertaintyModel.from(data.fix, data.candidates);
  return new UncertaintyController(host, data, model, services).handle;
}

const GREATEST_FACTOR = 4;
const REST_MS = 150;

class UncertaintyController {
  private readonly summary = h('p', { class: 'ch-sub ch-result', 'aria-live': 'polite' });
  private readonly drawing = h('div', { class: 'ch-regions' });
  private readonly tables = h('div', { class: 'ch-tables' });
  private readonly setters: ((scale: CauseScale) => void)[] = [];
  private readonly listeners = new Set<(state: ViewState) => void>();
  private readonly resize = new ResizeObserver(() => {
    const width = this.drawing.clientWidth;
    if (Math.abs(width - this.shownWidth) > 8) this.showRegions();
  });
  private shownWidth = 0;
  private scale: CauseScale = {};
  private text = '';
  private rest: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly host: HTMLElement,
    private readonly data: UncertaintyData,
    private readonly model: UncertaintyModel,
    private readonly services: Services,
  ) {
    const { t } = services;
    const controls = model.causes.map((cause) => {
      const control = figureControl({
        label: causeName(cause),
        unit: t('times'),
        least: 0,
        most: GREATEST_FACTOR,
        step: 0.1,
        entered: 1,
        onMove: (factor) => this.move({ ...this.scale, [cause]: factor }),
      });
      this.setters.push((scale) => control.set(scale[cause] ?? 1));
      return control.element;
    });
    host.replaceChildren(
      h(
        'section',
        { class: 'ch ch-uncertainty', 'aria-label': data.title },
        h('h3', {}, data.title),
        this.summary,
        h(
          'div',
          { class: 'ch-chart-columns' },
          this.drawing,
          h(
            'div',
            { class: 'ch-side ch-screen' },
            h('fieldset', {}, h('legend', {}, t('Try a cause larger or smaller')), ...controls),
            h(
              'button',
              { type: 'button', onclick: () => this.move({}) },
              t('Back to what was entered'),
            ),
          ),
        ),
        this.tables,
        h(
          'div',
          { class: 'ch-bar-row ch-screen' },
          ...saveDrawingButtons(() => this.drawing.querySelector('svg'), 'regions', services),
          copyButton(t('Copy as text'), t('Copied'), () => this.text),
        ),
      ),
    );
    this.resize.observe(this.drawing);
    this.showRegions();
    this.showTables();
  }

  get handle(): ViewHandle {
    return liveView(this.data.viewId, this.listeners, {
      state: () => this.state(),
      set: (state) => this.move(mergeScale(this.scale, state, this.model.causes)),
      dispose: () => {
        this.resize.disconnect();
        clearTimeout(this.rest);
        this.host.replaceChildren();
      },
    });
  }

  private state(): ViewState {
    const region = this.model.fix(this.scale).region();
    return {
      scale: this.scale,
      region: {
        level: region.level,
        semiMajorNm: region.semiMajor.nauticalMiles,
        semiMinorNm: region.semiMinor.nauticalMiles,
      },
    };
  }

  /** The region follows at once, the tables when the reader rests. */
  private move(scale: CauseScale): void {
    this.scale = scale;
    for (const set of this.setters) set(scale);
    if (!this.showRegions()) return;
    clearTimeout(this.rest);
    this.rest = setTimeout(() => {
      this.showTables();
      for (const listener of this.listeners) listener(this.state());
    }, REST_MS);
  }

  private showRegions(): boolean {
    try {
      const fix = this.model.fix(this.scale);
      const levels = this.model.levels(fix);
      const width = Math.max(280, Math.min(700, this.drawing.clientWidth || 620));
      const size = { width, height: Math.round(Math.max(280, width * 0.68)) };
      this.shownWidth = this.drawing.clientWidth;
      this.drawing.replaceChildren(svgElement(regionsSvg(levels, fix.position, size)));
      this.summary.textContent = fixSummary(fix);
      return true;
    } catch (error) {
      this.summary.textContent = error instanceof Error ? error.message : String(error);
      return false;
    }
  }

  private showTables(): void {
    const { model, scale } = this;
    try {
      const tables = [
        causesTable(model.shares(scale)),
        levelsTable(model.levels(model.fix(scale))),
        gainsTable(model.gains(scale)),
      ];
      this.text = tables.map(tableText).join('\n\n');
      this.tables.replaceChildren(...tables.map((table) => plainTable(table, this.services)));
    } catch (error) {
      this.summary.textContent = error instanceof Error ? error.message : String(error);
    }
  }
}

/** Factors out of a state that came from anywhere. */
function mergeScale(now: CauseScale, given: unknown, causes: readonly string[]): CauseScale {
  const scale = (given as { scale?: unknown } | null)?.scale;
  if (typeof scale !== 'object' || scale === null) return now;
  const known = Object.entries(scale).filter(
    ([cause, factor]) =>
      causes.includes(cause) &&
      typeof factor === 'number' &&
      factor >= 0 &&
      factor <= GREATEST_FACTOR,
  );
  return { ...now, ...Object.fromEntries(known) };
}
