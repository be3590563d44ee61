import type { Coast } from '../../../views/chart/chart-svg.js';
import { frameFor } from '../../../views/chart/chart-svg.js';
import { firstWindow } from '../../../views/chart/chart-html.js';
import { checkChartData, type ChartData } from '../../../views/chart/chart-inputs.js';
import {
  ChartModel,
  type ChartChanges,
  type ChartFigures,
} from '../../../views/chart/chart-model.js';
import { fixRows, fixSummary, fixText } from '../../../views/chart/chart-text.js';
import { DEFAULT_CHOICES, type ChartChoices } from '../../../views/chart/scene.js';
import { clampScale, windowAround, zoomed, type ChartWindow } from '../../../views/chart/window.js';
import { plottingSheet, type Paper } from '../../../views/chart/sheet.js';
import { choiceControl, copyButton, switchControl } from '../controls.js';
import { h } from '../dom.js';
import { download, saveDrawingButtons } from '../save.js';
import { chooseSight, chosenSight, onChosenSight } from '../selection.js';
import { liveView, type Services, type ViewHandle, type ViewState } from '../view.js';
import { ChartCanvas } from './canvas.js';
import { ChartPanel } from './chart-panel.js';
import { chartState, mergeChartChanges } from './chart-state.js';
import { coastFor } from './coast.js';
import { printSheet, sheetPage } from './print-sheet.js';
import { sharedErrorNote } from '../../../views/residuals/shared-note.js';
import { SightTable } from './sight-table.js';

/** The chart view. @throws ViewDataError, RangeError when the data are not those of a fix */
export function mountChart(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  const data = checkChartData(raw);
  return new ChartController(host, data, ChartModel.from(data), services).handle;
}

/** Once the reader rests this long, what takes longer than a frame is worked out. */
const REST_MS = 120;

class ChartController {
  private readonly canvas: ChartCanvas;
  private readonly table: SightTable;
  private readonly panel: ChartPanel;
  private readonly summary = h('p', { class: 'ch-sub ch-result', 'aria-live': 'polite' });
  private readonly flags = h('div', { class: 'ch-flags' });
  private readonly listeners = new Set<(state: ViewState) => void>();
  private readonly stops: (() => void)[] = [];
  private changes: ChartChanges = {};
  private choices: ChartChoices = DEFAULT_CHOICES;
  private window: ChartWindow;
  private figures: ChartFigures;
  private coast: Coast = [];
  private frame = 0;
  private rest: ReturnType<typeof setTimeout> | undefined;
  private isStale = false;

  constructor(
    private readonly host: HTMLElement,
    private readonly data: ChartData,
    private readonly model: ChartModel,
    services: Services,
  ) {
    const { t } = services;
    this.figures = model.with({});
    this.canvas = new ChartCanvas(
      t('Chart of the position lines'),
      t(
        'Arrow keys move the chart, plus and minus change its scale, Shift with arrow keys moves the DR',
      ),
      {
        onWindow: (w) => this.look(w),
        onDr: (dr) => this.change({ dr }),
        onLine: chooseSight,
      },
    );
    this.table = new SightTable(model, services, (key, isOff) => this.switchSight(key, isOff));
    this.panel = new ChartPanel(model, this.choices, services, {
      onChange: (change) => this.change(change),
      onChoice: (choice) => {
        this.choices = { ...this.choices, ...choice };
        this.draw();
      },
      onReset: () => this.replace({}),
    });
    const frame = frameFor(720, 560);
    this.window = firstWindow(this.figures.scene, frame);
    const button = (label: string, onclick: () => void) =>
      h('button', { type: 'button', onclick }, label);
    const bar = h(
      'div',
      { class: 'ch-bar-row ch-screen' },
      button(t('Closer'), () => this.look(zoomed(this.window, 1.6))),
      button(t('Farther'), () => this.look(zoomed(this.window, 1 / 1.6))),
      button(t('Show the fix'), () => this.showFix()),
      button(t('Show the circles'), () => this.showCircles()),
      ...saveDrawingButtons(() => this.canvas.element.querySelector('svg'), 'chart', services),
      copyButton(t('Copy as text'), t('Copied'), () =>
        this.figures.fix ? fixText(this.figures.fix) : (this.figures.problem ?? ''),
      ),
    );
    const note = sharedErrorNote(model.observations.map(({ observation }) => observation));
    host.replaceChildren(
      h(
        'section',
        { class: 'ch ch-chart', 'aria-label': data.title },
        h('h3', {}, data.title),
        this.summary,
        this.flags,
        h(
          'div',
          { class: 'ch-chart-columns' },
          h('div', { class: 'ch-chart-main' }, this.canvas.element, bar),
          this.panel.element,
        ),
        h('div', { class: 'ch-scroll' }, this.table.element),
        ...(note === undefined ? [] : [h('p', { class: 'ch-sub' }, note)]),
        this.sheetControls(services),
      ),
    );
    const resize = new ResizeObserver(() => this.resized());
    resize.observe(this.canvas.element);
    this.stops.push(
      () => resize.disconnect(),
      onChosenSight(() => this.mark()),
    );
    this.show();
  }

  get handle(): ViewHandle {
    return liveView(this.data.viewId, this.listeners, {
      state: () => chartState(this.changes, this.figures),
      set: (state) => this.replace(mergeChartChanges(this.changes, state)),
      dispose: () => {
        for (const stop of this.stops) stop();
        cancelAnimationFrame(this.frame);
        clearTimeout(this.rest);
        this.host.replaceChildren();
      },
    });
  }

  /** The plotting sheet: paper, with or without lines, to the printer or into a file. */
  private sheetControls({ t }: Services): HTMLElement {
    let paper: Paper = 'A4';
    let blank = false;
    const sheet = () =>
      plottingSheet(this.figures.scene, {
        paper,
        blank,
        title: this.data.title,
        summary: this.figures.fix ? fixSummary(this.figures.fix) : '',
        rows: this.figures.fix ? fixRows(this.figures.fix) : [],
      });
    const papers = [['A4', 'A4'] as const, ['Letter', 'Letter'] as const];
    const button = (label: string, onclick: () => void) =>
      h('button', { type: 'button', onclick }, label);
    return h(
      'details',
      { class: 'ch-panel ch-screen' },
      h('summary', {}, t('Plotting sheet to true scale')),
      h(
        'div',
        { class: 'ch-bar-row' },
        choiceControl(t('Paper'), papers, paper, (value) => {
          paper = value === 'Letter' ? 'Letter' : 'A4';
        }).element,
        switchControl(t('Blank, to plot by hand'), blank, (isOn) => {
          blank = isOn;
        }).element,
        button(t('Print'), () => printSheet(sheet())),
        button(t('Save as a page'), () =>
          download('plotting-sheet.html', sheetPage(sheet()), 'text/html'),
        ),
      ),
    );
  }

  private change(change: ChartChanges): void {
    this.replace({ ...this.changes, ...change });
  }

  private switchSight(key: string, isOff: boolean): void {
    const others = (this.changes.off ?? []).filter((k) => k !== key);
    this.change({ off: isOff ? [...others, key] : others });
  }

  /** Takes these changes; the figures follow with the next frame, the slow ones when the reader rests. */
  private replace(changes: ChartChanges): void {
    this.changes = changes;
    this.panel.show(changes, this.choices);
    this.isStale = true;
    this.draw();
    clearTimeout(this.rest);
    this.rest = setTimeout(() => {
      this.figures = this.model.with(this.changes);
      this.isStale = false;
      this.show();
      const state = chartState(this.changes, this.figures);
      for (const listener of this.listeners) listener(state);
    }, REST_MS);
  }

  private look(w: ChartWindow): void {
    this.window = w;
    this.draw();
  }

  private draw(): void {
    if (this.frame) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      if (this.isStale) this.figures = this.model.with(this.changes, false);
      this.show();
    });
  }

  private show(): void {
    const { figures } = this;
    this.canvas.show(figures.scene, this.window, this.choices, this.coast);
    this.table.show(figures, this.model, new Set(this.changes.off ?? []));
    this.summary.replaceChildren(figures.fix ? fixSummary(figures.fix) : (figures.problem ?? ''));
    this.flags.replaceChildren(
      ...(figures.fix?.flags ?? []).map((flag) => h('p', { class: 'ch-flag' }, flag.text)),
    );
    this.mark();
    this.fetchCoast();
  }

  private fetchCoast(): void {
    const wanted = this.choices.coast ? coastFor(this.window) : undefined;
    if (!wanted) {
      this.coast = [];
      return;
    }
    wanted.then(
      (coast) => {
        if (coast === this.coast || coastFor(this.window) !== wanted) return;
        this.coast = coast;
        this.draw();
      },
      () => {},
    );
  }

  private resized(): void {
    const { width, height } = this.canvas.size;
    const frame = frameFor(width, height);
    const scale = frame.width / this.window.frame.width;
    if (Math.abs(scale - 1) < 0.002 && frame.height === this.window.frame.height) return;
    this.window = {
      ...this.window,
      frame,
      perMinute: clampScale(frame, this.window.perMinute * scale),
    };
    this.draw();
  }

  private showFix(): void {
    this.look(firstWindow(this.figures.scene, this.window.frame));
  }

  private showCircles(): void {
    const { lines, fix } = this.figures.scene;
    const places = lines.map((line) => line.geographicalPosition);
    this.look(windowAround(this.window.frame, [...(fix ? [fix.place] : []), ...places], 1.5));
  }

  private mark(): void {
    const key = chosenSight();
    this.table.mark(key);
    for (const path of this.canvas.element.querySelectorAll<SVGElement>('[data-line]'))
      path.classList.toggle('ch-chosen-line', path.dataset['line'] === key);
  }
}
