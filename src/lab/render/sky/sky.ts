import { isBodyName, type BodyName } from '../../../core/sky/index.js';
import { tableText } from '../../../views/plain-table.js';
import { CAUTIONS, deckRows, deckTable, deckTimes } from '../../../views/sky/deck-table.js';
import { lightSpan } from '../../../views/sky/light-svg.js';
import { BOUNDS, checkSkyData, type SkyData } from '../../../views/sky/sky-data.js';
import { SkyModel, startSettings, type SkySettings } from '../../../views/sky/sky-model.js';
import { skyLayout, skySvg, type SkyScene } from '../../../views/sky/sky-svg.js';
import { clock, sunText } from '../../../views/sky/sky-text.js';
import { skyScene, skySentences } from '../../../views/sky/sky-view.js';
import { timeOfDay } from '../../../views/sky/time-entry.js';
import { choiceControl, copyButton, figureControl } from '../controls.js';
import { h } from '../dom.js';
import { printElement } from '../print.js';
import { saveDrawingButtons } from '../save.js';
import { svgElement } from '../svg-dom.js';
import { liveView, type Services, type ViewHandle, type ViewState } from '../view.js';
import { bodyTable } from './body-table.js';
import { keptSpan, readable, type Figure } from './sky-state.js';
import { TimeStrip } from './time-strip.js';

/** The sky view. @throws ViewDataError, OutOfRangeError when the data do not hold the places of their day */
export function mountSky(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  return new SkyController(host, checkSkyData(raw), services).handle;
}

const REST_MS = 150;
const PAPER_PX = 760;
const LEAST_PX = 290;
const MOST_PX = 1060;

class SkyController {
  private readonly model: SkyModel;
  private settings: SkySettings;
  private scene: SkyScene;
  private chosen: BodyName | undefined;
  private shownWidth = 0;
  private rest: ReturnType<typeof setTimeout> | undefined;
  private readonly listeners = new Set<(state: ViewState) => void>();
  private readonly title = h('h3');
  private readonly window = h('p', { class: 'ch-sky-window' });
  private readonly light = h('p', { 'aria-live': 'polite' });
  private readonly result = h('p', { class: 'ch-result', 'aria-live': 'polite' });
  private readonly complaint = h('p', { class: 'ch-flag', role: 'alert', hidden: true });
  private readonly drawing = h('div', { class: 'ch-sky-drawing' });
  private readonly table = h('div');
  private readonly jumps = h('span', { class: 'ch-bar-row ch-sky-jumps' });
  private readonly field = h('input', { type: 'text', size: 9 });
  private readonly strip = new TimeStrip((atMs) => this.move({ atMs }));
  private readonly setters = new Map<keyof SkySettings, (value: number) => void>();
  private readonly section: HTMLElement;
  private readonly resize = new ResizeObserver(() => {
    if (Math.abs(this.drawing.clientWidth - this.shownWidth) > 8) this.draw();
  });

  constructor(
    private readonly host: HTMLElement,
    private readonly data: SkyData,
    private readonly services: Services,
  ) {
    this.model = new SkyModel(data);
    this.settings = startSettings(data);
    this.scene = skyScene(this.model, this.settings);
    this.section = this.build();
    host.replaceChildren(this.section);
    this.resize.observe(this.drawing);
    this.draw();
    this.show();
  }

  get handle(): ViewHandle {
    return liveView(this.data.viewId, this.listeners, {
      state: () => this.state(),
      set: (given) => this.move(readable(given, this.model), true),
      dispose: () => {
        this.resize.disconnect();
        clearTimeout(this.rest);
        this.host.replaceChildren();
      },
    });
  }

  private state(): ViewState {
    const { settings, scene } = this;
    const { found } = scene;
    return {
      ...settings,
      time: scene.moment.instant.toString(),
      set: found.set ? found.order : [],
      radialNm: found.set?.radialNm ?? null,
      sunAltDeg: scene.moment.sunAltDeg,
    };
  }

  private build(): HTMLElement {
    const { t } = this.services;
    const figure = (name: Figure, label: string, unit: string, step: number) => {
      const [least, most] = BOUNDS[name];
      const control = figureControl({
        label: t(label),
        unit,
        least,
        most,
        step,
        entered: this.settings[name],
        onMove: (value) => this.move({ [name]: value }),
      });
      this.setters.set(name, control.set);
      return control.element;
    };
    const count = choiceControl(
      t('Bodies in the set'),
      ['3', '4', '5', '6', '7'].map((n) => [n, n] as const),
      String(this.settings.count),
      (value) => this.move({ count: Number(value) }),
    );
    this.setters.set('count', (value) => count.set(String(value)));
    this.field.addEventListener('change', () => this.typed());
    return h(
      'section',
      { class: 'ch ch-sky', 'aria-label': t('Sky') },
      this.title,
      this.window,
      h(
        'div',
        { class: 'ch-bar-row ch-screen' },
        h('label', {}, `${t('Time, UTC')} `, this.field),
        this.jumps,
        h(
          'span',
          { class: 'ch-sub' },
          t('Drag along the strip of light, or use the arrow keys there.'),
        ),
      ),
      this.complaint,
      this.light,
      this.result,
      h('div', { class: 'ch-sky-stage' }, this.drawing, this.strip.element),
      this.table,
      h('ul', { class: 'ch-note' }, ...CAUTIONS.map((c) => h('li', {}, t(c)))),
      h(
        'details',
        { class: 'ch-screen' },
        h('summary', {}, t('Try other figures')),
        h(
          'div',
          { class: 'ch-figures-grid' },
          count.element,
          figure('eyeHeightM', 'Height of eye', 'm', 0.1),
          figure('indexErrorArcmin', 'Index error, on the arc +', '′', 0.1),
          figure('lowestDeg', 'Lowest altitude', '°', 1),
          figure('highestDeg', 'Highest altitude', '°', 1),
        ),
      ),
      h(
        'div',
        { class: 'ch-bar-row ch-screen' },
        h('button', { type: 'button', onclick: () => this.print() }, t('Print for the deck')),
        ...saveDrawingButtons(() => this.drawing.querySelector('svg'), 'sky', this.services),
        copyButton(t('Copy as text'), t('Copied'), () => this.text()),
      ),
    );
  }

  /** A time as it was typed; what cannot be read stays in the field, with the reason. */
  private typed(): void {
    try {
      this.move({ atMs: timeOfDay(this.field.value, this.model) }, true);
    } catch (error) {
      this.field.setAttribute('aria-invalid', 'true');
      this.complain(error);
    }
  }

  private complain(error: unknown): void {
    this.complaint.hidden = false;
    this.complaint.textContent = error instanceof Error ? error.message : String(error);
  }

  /** The picture follows at once; the set is sought, and the table made, when the reader rests. */
  private move(change: Partial<SkySettings>, isDone = false): void {
    const settings = { ...this.settings, ...change };
    try {
      this.scene = this.sceneOf(settings);
    } catch (error) {
      return this.complain(error);
    }
    this.settings = settings;
    this.complaint.hidden = true;
    this.field.removeAttribute('aria-invalid');
    for (const [name, set] of this.setters) if (isDone) set(Number(settings[name]));
    this.draw();
    this.showLight();
    clearTimeout(this.rest);
    this.rest = setTimeout(() => this.settle(), isDone ? 0 : REST_MS);
  }

  /** The scene without a new search for the set: the last one stays while something moves. */
  private sceneOf(settings: SkySettings): SkyScene {
    if (!(settings.lowestDeg < settings.highestDeg))
      throw new RangeError(this.services.t('The lowest altitude must be under the highest.'));
    const windows = this.model.windows(settings.atMs);
    const span = this.strip.isHeld
      ? this.scene.span
      : (keptSpan(this.scene.span, settings.atMs) ?? lightSpan(settings.atMs, windows, this.model));
    const moment = this.model.moment(settings);
    return { ...this.scene, settings, moment, windows, span };
  }

  private settle(): void {
    this.scene = { ...this.scene, found: this.model.bestSet(this.settings) };
    this.draw();
    this.show();
    for (const listener of this.listeners) listener(this.state());
  }

  private draw(): void {
    this.shownWidth = this.drawing.clientWidth;
    const width = Math.max(LEAST_PX, Math.min(MOST_PX, this.shownWidth || 960));
    const layout = skyLayout(width);
    this.drawing.replaceChildren(svgElement(skySvg({ ...this.scene, chosen: this.chosen }, width)));
    const { x, y, width: w, height } = layout.light;
    this.strip.lay(x / width, y / layout.height, w / width, height / layout.height);
  }

  private showLight(): void {
    const { moment, settings, span } = this.scene;
    const { title, sentences } = skySentences(this.scene);
    this.title.textContent = title;
    this.window.textContent = sentences[0] ?? '';
    this.light.textContent = sentences[1] ?? '';
    if (document.activeElement !== this.field) this.field.value = clock(settings.atMs);
    const { firstMs, lastMs } = this.model;
    const text = `Sun ${sunText(moment.sunAltDeg)}`;
    this.strip.show({ atMs: settings.atMs, firstMs, lastMs, span, text });
  }

  private rows() {
    const { model, settings, scene } = this;
    const times = deckTimes(settings.atMs, scene.windows, [model.firstMs, model.lastMs]);
    return { times, rows: deckRows(model, scene.moment, scene.found, settings, times) };
  }

  private show(): void {
    this.showLight();
    const { settings, scene } = this;
    const { t } = this.services;
    this.result.textContent = skySentences(scene).sentences[2] ?? '';
    this.result.classList.toggle('ch-flag', scene.found.set === null);
    const { times, rows } = this.rows();
    const focused = (document.activeElement as HTMLElement | null)?.dataset?.['take'];
    this.table.replaceChildren(
      bodyTable(rows, times, settings.atMs, settings.hidden, this.services, {
        onTake: (body, isTaken) => {
          const others = this.settings.hidden.filter((b) => b !== body);
          this.move({ hidden: isTaken ? others : [...others, body] }, true);
        },
        onPoint: (body) => {
          this.chosen = body;
          this.draw();
        },
      }),
    );
    // The row of the tick that was just changed may stand elsewhere now; the focus goes with it.
    if (focused && isBodyName(focused))
      this.table.querySelector<HTMLElement>(`[data-take="${CSS.escape(focused)}"]`)?.focus();
    this.jumps.replaceChildren(
      ...scene.windows.map((w) => {
        const middle = Math.round((w.starts.epochMs + w.ends.epochMs) / 120_000) * 60_000;
        const name =
          w.when === 'all night' ? t('Middle of the night') : t(`Middle of the ${w.when}`);
        return h(
          'button',
          { type: 'button', onclick: () => this.move({ atMs: middle }, true) },
          name,
        );
      }),
    );
  }

  private text(): string {
    const { title, sentences } = skySentences(this.scene);
    const { times, rows } = this.rows();
    return [title, ...sentences, tableText(deckTable(rows, times))].join('\n');
  }

  /** The view on paper: drawn for the width of the sheet, with room for time and reading. */
  private print(): void {
    const copy = this.section.cloneNode(true) as HTMLElement;
    copy
      .querySelector('.ch-sky-drawing')
      ?.replaceChildren(svgElement(skySvg({ ...this.scene, chosen: undefined }, PAPER_PX)));
    printElement(copy, skySentences(this.scene).title);
  }
}
