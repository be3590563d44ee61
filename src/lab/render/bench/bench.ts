import { formatAngle, Instant } from '../../../core/units/index.js';
import { benchCsv, benchScore, type BenchMark } from '../../../views/bench/bench-log.js';
import { checkBenchData, type BenchData } from '../../../views/bench/bench-data.js';
import { BenchSky, type BenchBody } from '../../../views/bench/bench-sky.js';
import { tiltedAngle } from '../../../views/bench/optics.js';
import { readingText } from '../../../views/instrument/misreading.js';
import { colours, onThemeChange } from '../colours.js';
import { choiceControl, figureControl } from '../controls.js';
import { h } from '../dom.js';
import { download } from '../save.js';
import type { Services, ViewHandle, ViewState } from '../view.js';
import { drawField, inField, type FieldInks } from './draw-field.js';
import { seaMotion } from './sea-motion.js';

const KEYS: Readonly<Record<string, readonly ['drum' | 'tilt', number]>> = {
  ArrowUp: ['drum', 0.1],
  ArrowDown: ['drum', -0.1],
  PageUp: ['drum', 5],
  PageDown: ['drum', -5],
  ArrowLeft: ['tilt', -1],
  ArrowRight: ['tilt', 1],
};
const DARK = 'dark';
const EYES =
  'Stopped: the Sun stood in the telescope without the dark shade. With a real sextant that burns the eye, at once and for good. Put the dark shades before both mirrors first, and then look.';

/** The practice bench. @throws ViewDataError */
export function mountBench(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  return new Bench(host, checkBenchData(raw), services).handle;
}

class Bench {
  private readonly canvas = h('canvas', {
    width: 800,
    height: 600,
    class: 'ch-bench-field',
    tabindex: 0,
    role: 'img',
    'aria-label': 'Field of the telescope',
  });
  private readonly context = this.canvas.getContext('2d', {
    alpha: false,
  }) as CanvasRenderingContext2D;
  private readonly clock = h('span', { class: 'ch-bench-clock' });
  private readonly shows = h('p', { class: 'ch-result', 'aria-live': 'off' });
  private readonly stop = h('p', { class: 'ch-flag', role: 'alert', hidden: true });
  private readonly score = h('div', { 'aria-live': 'polite' });
  private readonly sky: BenchSky;
  private readonly motion;
  private readonly listeners = new Set<(state: ViewState) => void>();
  private readonly started = performance.now();
  private marks: BenchMark[] = [];
  private readingDeg: number;
  private handTiltDeg = 6;
  private shade = 'none';
  private stopped = false;
  private frame = 0;
  private frames = 0;
  private drawMs = 0;
  private inks: FieldInks;
  private readonly drum;
  private readonly tilt;
  private readonly stopTheme: () => void;

  constructor(
    private readonly host: HTMLElement,
    private readonly data: BenchData,
    { t }: Services,
  ) {
    this.sky = new BenchSky(data);
    this.motion = seaMotion(data.sea, data.seed);
    this.readingDeg = this.preset();
    this.drum = figureControl({
      label: t('Drum and arc'),
      unit: '′',
      least: -300,
      most: 7500,
      step: 0.1,
      entered: this.readingDeg * 60,
      note: (v) => readingText(v / 60),
      onMove: (v) => this.turnTo(v),
    });
    this.tilt = figureControl({
      label: t('Rock'),
      unit: '°',
      least: -20,
      most: 20,
      step: 0.5,
      entered: this.handTiltDeg,
      onMove: (v) => (this.handTiltDeg = v),
    });
    const shade = choiceControl(
      t('Shade before the mirrors'),
      [
        ['none', t('none')],
        ['light', t('light')],
        [DARK, t('dark')],
      ],
      data.body === 'Sun' ? DARK : 'none',
      (value) => (this.shade = value),
    );
    this.shade = data.body === 'Sun' ? DARK : 'none';
    const button = (name: string, onclick: () => void) =>
      h('button', { type: 'button', onclick }, name);
    host.replaceChildren(
      h(
        'section',
        { class: 'ch ch-bench', 'aria-label': t('Practice bench') },
        h(
          'h3',
          {},
          `${t('Practice bench')}: ${data.body}${data.limb === 'centre' ? '' : `, ${t(data.limb)} ${t('limb')}`}`,
        ),
        h('p', { class: 'ch-sub' }, this.clock),
        this.stop,
        h(
          'div',
          { class: 'ch-chart-columns' },
          this.canvas,
          h(
            'div',
            { class: 'ch-side ch-screen' },
            this.shows,
            this.drum.element,
            this.tilt.element,
            shade.element,
            h(
              'div',
              { class: 'ch-bar-row' },
              button(t('Mark'), () => this.mark()),
              button(t('Preset the altitude'), () => this.turnTo(this.preset() * 60, true)),
              button(t('Go on'), () => this.goOn()),
              button(t('Save the log'), () =>
                download('practice-bench.csv', benchCsv(data, this.marks), 'text/csv'),
              ),
            ),
            h(
              'p',
              { class: 'ch-sub' },
              t(
                'Drag across to rock, up and down to turn the drum; or the arrow keys. Space marks the moment.',
              ),
            ),
          ),
        ),
        this.score,
      ),
    );
    this.inks = this.readInks();
    this.stopTheme = onThemeChange(() => (this.inks = this.readInks()));
    this.listen();
    this.turnTo(this.readingDeg * 60, true);
    this.frame = requestAnimationFrame(() => this.step());
  }

  get handle(): ViewHandle {
    const { viewId } = this.data;
    return {
      ...(viewId === undefined ? {} : { viewId }),
      state: () => this.state(),
      set() {},
      onChange: (listener) => {
        this.listeners.add(listener);
        return () => this.listeners.delete(listener);
      },
      dispose: () => {
        cancelAnimationFrame(this.frame);
        this.stopTheme();
        this.host.replaceChildren();
      },
    };
  }

  private now = () => this.data.fromMs + (performance.now() - this.started);
  private preset = () => Math.round((this.sky.readingAt(this.now(), 0, 0) || 0) * 6) / 6;

  private state(): ViewState {
    return {
      utcMs: this.now(),
      readingDeg: this.readingDeg,
      tiltDeg: this.handTiltDeg,
      stopped: this.stopped,
      marks: this.marks,
      csv: benchCsv(this.data, this.marks),
      frames: this.frames,
      drawMs: this.frames ? this.drawMs / this.frames : 0,
    };
  }

  private readInks(): FieldInks {
    const c = colours(this.canvas);
    const panel = getComputedStyle(this.canvas).getPropertyValue('--ch-panel').trim();
    return { paper: c.paper, sky: panel, sea: c.region, ink: c.ink, body: c.accent };
  }

  private turnTo(arcmin: number, showControl = false): void {
    this.readingDeg = Math.min(7500, Math.max(-300, Math.round(arcmin * 10) / 10)) / 60;
    if (showControl) this.drum.set(this.readingDeg * 60);
    this.shows.textContent = readingText(this.readingDeg);
  }

  private rockTo(degrees: number): void {
    this.handTiltDeg = Math.min(20, Math.max(-20, degrees));
    this.tilt.set(this.handTiltDeg);
  }

  private listen(): void {
    const { canvas } = this;
    canvas.addEventListener('keydown', (event) => {
      const known = KEYS[event.key];
      if (!known && event.key !== ' ') return;
      event.preventDefault();
      event.stopPropagation();
      if (!known) this.mark();
      else if (known[0] === 'drum') this.turnTo(this.readingDeg * 60 + known[1], true);
      else this.rockTo(this.handTiltDeg + known[1]);
    });
    canvas.addEventListener('pointerdown', (down) => {
      canvas.setPointerCapture(down.pointerId);
      const from = {
        x: down.clientX,
        y: down.clientY,
        drum: this.readingDeg * 60,
        tilt: this.handTiltDeg,
      };
      const move = (event: PointerEvent) => {
        this.rockTo(from.tilt + (event.clientX - from.x) / 12);
        this.turnTo(from.drum + (event.clientY - from.y) / 6, true);
      };
      const end = () => canvas.removeEventListener('pointermove', move);
      canvas.addEventListener('pointermove', move);
      canvas.addEventListener('pointerup', end, { once: true });
      canvas.addEventListener('pointercancel', end, { once: true });
    });
  }

  private step(): void {
    const began = performance.now();
    const seconds = (began - this.started) / 1000;
    const body = this.sky.bodyAt(this.now());
    if (!this.stopped) this.draw(body, seconds);
    this.clock.textContent = Instant.fromEpochMs(Math.round(this.now() / 1000) * 1000).toString();
    this.frames++;
    this.drawMs += performance.now() - began;
    this.frame = requestAnimationFrame(() => this.step());
  }

  private tiltAt = (seconds: number) => this.handTiltDeg + this.motion.tiltDeg(seconds);

  private draw(body: BenchBody, seconds: number): void {
    const tiltDeg = this.tiltAt(seconds);
    const heaveM = this.motion.heaveM(seconds);
    const eye = Math.max(0.3, this.data.eyeHeightM);
    // The dip goes with the root of the height of eye, so the horizon breathes with the swell.
    const dipArcmin = body.dipArcmin * Math.sqrt(Math.max(0.1, (eye + heaveM) / eye));
    const pointing = { panDeg: this.panFor(body, tiltDeg), pitchDeg: -dipArcmin / 60, tiltDeg };
    const turned = this.readingDeg - this.data.indexErrorArcmin / 60;
    const at = drawField(this.context, { ...body, dipArcmin }, pointing, turned, this.inks);
    if (this.data.body === 'Sun' && this.shade !== DARK && inField(at)) this.halt();
  }

  /** A hand that rocks also swings to keep the body in the field: it follows about nine tenths of the way. */
  private panFor(body: BenchBody, tiltDeg: number): number {
    const h = (body.lowerDeg * Math.PI) / 180;
    const b = (tiltDeg * Math.PI) / 180;
    return (-0.9 * Math.asin(Math.max(-1, Math.min(1, Math.tan(h) * Math.tan(b)))) * 180) / Math.PI;
  }

  private halt(): void {
    this.stopped = true;
    this.stop.hidden = false;
    this.stop.textContent = EYES;
    this.context.fillStyle = this.inks.paper;
    this.context.fillRect(0, 0, 800, 600);
  }
  private goOn(): void {
    if (this.data.body === 'Sun' && this.shade !== DARK) return;
    this.stopped = false;
    this.stop.hidden = true;
  }

  private mark(): void {
    if (this.stopped) return;
    const at = this.now();
    const limb = this.data.limb === 'lower' ? -1 : this.data.limb === 'upper' ? 1 : 0;
    const { indexErrorArcmin } = this.data;
    const truthDeg = this.sky.readingAt(at, limb, indexErrorArcmin);
    const tiltDeg = this.tiltAt((performance.now() - this.started) / 1000);
    const trueAngle = truthDeg - indexErrorArcmin / 60;
    const tiltArcmin = 60 * (tiltedAngle(trueAngle, tiltDeg) - trueAngle);
    const notedMs = Math.round(at / 1000) * 1000;
    this.marks = [
      ...this.marks,
      { notedMs, readingDeg: this.readingDeg, truthDeg, tiltDeg, tiltArcmin },
    ];
    this.showScore();
    for (const listener of this.listeners) listener(this.state());
  }

  private showScore(): void {
    const row = (m: BenchMark) =>
      h(
        'tr',
        {},
        h('td', {}, Instant.fromEpochMs(m.notedMs).toString().slice(11)),
        h('td', { class: 'ch-n' }, formatAngle(m.readingDeg)),
        h('td', { class: 'ch-n' }, formatAngle(m.truthDeg)),
        h('td', { class: 'ch-n' }, `${((m.readingDeg - m.truthDeg) * 60).toFixed(1)}′`),
        h('td', { class: 'ch-n' }, `${m.tiltDeg.toFixed(1)}° (${m.tiltArcmin.toFixed(1)}′)`),
      );
    const heads = ['UTC', 'Read', 'True', 'Too high by', 'Tilt, and what it makes'];
    const table = h(
      'table',
      {},
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          ...heads.map((head, i) => h('th', { scope: 'col', class: i ? 'ch-n' : null }, head)),
        ),
      ),
      h('tbody', {}, ...this.marks.map(row)),
    );
    const sentences =
      this.marks.length < 3
        ? ['The score comes with three marks.']
        : benchScore(this.data, this.marks).sentences;
    this.score.replaceChildren(
      h('div', { class: 'ch-scroll' }, table),
      ...sentences.map((s) => h('p', {}, s)),
    );
  }
}
