import { Instant } from '../../../core/units/index.js';
import { checkBenchData, type BenchData } from '../../../views/bench/bench-data.js';
import { benchLight, faintestMagnitude } from '../../../views/bench/bench-light.js';
import { benchCsv, type BenchMark } from '../../../views/bench/bench-log.js';
import { BenchSky, type BenchBody } from '../../../views/bench/bench-sky.js';
import { markAt } from '../../../views/bench/bench-truth.js';
import type { Pointing } from '../../../views/bench/optics.js';
import { readingText } from '../../../views/instrument/misreading.js';
import { onThemeChange } from '../colours.js';
import { h } from '../dom.js';
import { download } from '../save.js';
import { liveView, type Services, type ViewHandle, type ViewState } from '../view.js';
import { benchPanel, canInvert, DRUM, ROCK, type BenchPanel } from './bench-panel.js';
import { drawField, seenIn, type FieldInks, type FieldScene } from './draw-field.js';
import { inksOf } from './field-inks.js';
import { dangerOf, SHADES, type Shade, type Shades } from './eye-safety.js';
import { Frames } from './frames.js';
import { takeInHand } from './field-hand.js';
import { marksTable } from './marks-table.js';
import { seaMotion } from './sea-motion.js';

const RAD = Math.PI / 180;
const bounded = (value: number, { least, most }: { least: number; most: number }) =>
  Math.min(most, Math.max(least, value));

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
  private readonly listeners = new Set<(state: ViewState) => void>();
  private readonly sky: BenchSky;
  private readonly motion;
  private readonly panel: BenchPanel;
  private readonly started = performance.now();
  private marks: BenchMark[] = [];
  private readingDeg: number;
  private movedMs = 0;
  private handTiltDeg: number;
  private shades: Shades;
  private isInverted = false;
  private stopped = false;
  private readonly frames: Frames;
  private inks: FieldInks;
  private readonly magnitude: number;
  private readonly stopTheme: () => void;

  constructor(
    private readonly host: HTMLElement,
    private readonly data: BenchData,
    services: Services,
  ) {
    const { t } = services;
    this.sky = new BenchSky(data);
    const isCalm = matchMedia('(prefers-reduced-motion: reduce)').matches;
    this.motion = seaMotion(isCalm ? 0 : data.sea, data.seed);
    this.magnitude = this.sky.magnitude();
    this.readingDeg = this.preset();
    // Over the basin two discs have to be found in one field, which a tilted sextant sets side by side.
    this.handTiltDeg = data.horizon === 'artificial' ? 0.5 : 6;
    this.shades = this.isSun
      ? { index: 'dark', horizon: data.horizon === 'artificial' ? 'dark' : 'none' }
      : { index: 'none', horizon: 'none' };
    const start = {
      arcmin: this.readingDeg * 60,
      tiltDeg: this.handTiltDeg,
      shades: this.shades,
    };
    this.panel = benchPanel(data, services, start, {
      turnTo: (v) => this.turnTo(v),
      rockTo: (v) => (this.handTiltDeg = v),
      shade: (which, shade) => (this.shades = { ...this.shades, [which]: shade }),
      invert: (isInverted) => (this.isInverted = isInverted),
      mark: () => this.mark(),
      preset: () => this.turnTo(this.preset() * 60, true),
      goOn: () => this.goOn(),
      save: () => download('practice-bench.csv', benchCsv(data, this.marks), 'text/csv'),
    });
    const limb = data.limb === 'centre' ? '' : `, ${t(data.limb)} ${t('limb')}`;
    const basin = data.horizon === 'artificial' ? `, ${t('artificial horizon')}` : '';
    host.replaceChildren(
      h(
        'section',
        { class: 'ch ch-bench', 'aria-label': t('Practice bench') },
        h('h3', {}, `${t('Practice bench')}: ${data.body}${limb}${basin}`),
        h('p', { class: 'ch-sub' }, this.clock),
        isCalm && data.sea > 0
          ? h(
              'p',
              { class: 'ch-sub' },
              t('The sea is kept still: this device asks for less motion.'),
            )
          : null,
        this.stop,
        h(
          'div',
          { class: 'ch-chart-columns' },
          this.canvas,
          h('div', { class: 'ch-side ch-screen' }, this.shows, this.panel.element),
        ),
        this.score,
      ),
    );
    this.inks = inksOf(this.canvas);
    this.stopTheme = onThemeChange(() => (this.inks = inksOf(this.canvas)));
    takeInHand(this.canvas, {
      held: () => ({ arcmin: this.readingDeg * 60, tiltDeg: this.handTiltDeg }),
      turnTo: (arcmin) => this.turnTo(arcmin, true),
      rockTo: (degrees) => this.rockTo(degrees),
      mark: () => this.mark(),
    });
    this.turnTo(this.readingDeg * 60, true);
    this.frames = new Frames(this.canvas, () => this.step());
  }

  get handle(): ViewHandle {
    return liveView(this.data.viewId, this.listeners, {
      state: () => this.state(),
      set: (changes) => this.set({ ...(changes as ViewState | null) }),
      dispose: () => {
        this.frames.stop();
        this.stopTheme();
        this.host.replaceChildren();
      },
    });
  }

  private get isSun(): boolean {
    return this.data.body === 'Sun';
  }
  private now = () => this.data.fromMs + (performance.now() - this.started);
  private preset = () => Math.round((this.sky.readingAt(this.now(), 0, 0) || 0) * 6) / 6;

  private state(): ViewState {
    return {
      utcMs: this.now(),
      readingDeg: this.readingDeg,
      tiltDeg: this.handTiltDeg,
      indexShade: this.shades.index,
      horizonShade: this.shades.horizon,
      isInverted: this.isInverted,
      stopped: this.stopped,
      marks: this.marks,
      csv: benchCsv(this.data, this.marks),
      frames: this.frames.count,
      drawMs: this.frames.drawMs,
    };
  }

  /** Moves what code may move; a value that no hand could set is left out. */
  private set(changes: ViewState): void {
    const { readingDeg, tiltDeg, indexShade, horizonShade, isInverted } = changes;
    if (Number.isFinite(readingDeg)) this.turnTo((readingDeg as number) * 60, true);
    if (Number.isFinite(tiltDeg)) this.rockTo(tiltDeg as number);
    const shade = (which: keyof Shades, value: unknown) => {
      if (!SHADES.includes(value as Shade)) return;
      this.shades = { ...this.shades, [which]: value as Shade };
      this.panel.setShade(which, value as Shade);
    };
    shade('index', indexShade);
    shade('horizon', horizonShade);
    if (typeof isInverted === 'boolean' && canInvert(this.data)) {
      this.isInverted = isInverted;
      this.panel.setInverted(isInverted);
    }
  }

  private turnTo(arcmin: number, showControl = false): void {
    this.readingDeg = bounded(Math.round(arcmin * 10) / 10, DRUM) / 60;
    this.movedMs = this.now();
    if (showControl) this.panel.setArcmin(this.readingDeg * 60);
    this.shows.textContent = readingText(this.readingDeg);
  }

  private rockTo(degrees: number): void {
    this.handTiltDeg = bounded(degrees, ROCK);
    this.panel.setTilt(this.handTiltDeg);
  }

  private step(): void {
    const seconds = (performance.now() - this.started) / 1000;
    const scene = this.scene(this.sky.bodyAt(this.now()), seconds);
    const { reflected, direct } = seenIn(scene);
    // Outside the document, where a notebook's kept outputs are made, no colour is known yet.
    if (!this.inks.paper) this.inks = inksOf(this.canvas);
    if (!this.stopped) {
      const danger = this.isSun ? dangerOf(reflected, direct, this.shades) : null;
      if (danger) this.halt(danger);
      else drawField(this.context, scene, this.inks);
    }
    const text = Instant.fromEpochMs(Math.floor(this.now() / 1000) * 1000).toString();
    if (this.clock.textContent !== text) this.clock.textContent = text;
  }

  private tiltAt = (seconds: number) => this.handTiltDeg + this.motion.tiltDeg(seconds);

  private scene(body: BenchBody, seconds: number): FieldScene {
    const { data } = this;
    const tiltDeg = this.tiltAt(seconds);
    const eye = Math.max(0.3, data.eyeHeightM);
    const light = benchLight(body.sunAltDeg, eye, data.visibilityM ?? Infinity);
    const dip = light.isFalseHorizon ? light.edgeDipArcmin : body.dipArcmin;
    // The dip goes with the root of the height of eye, so the horizon breathes with the swell.
    const heave = Math.sqrt(Math.max(0.1, (eye + this.motion.heaveM(seconds)) / eye));
    const edgeDipArcmin = dip * heave;
    const way = this.isInverted
      ? 'inverted'
      : data.horizon === 'artificial'
        ? 'artificial'
        : 'upright';
    const isPoint = body.halfWidthArcmin === 0;
    const margin = faintestMagnitude(body.sunAltDeg) - this.magnitude;
    return {
      body,
      isSun: this.isSun,
      pointing: pointingOf(way, body, edgeDipArcmin, tiltDeg),
      turnedDeg: this.readingDeg - data.indexErrorArcmin / 60,
      way,
      light,
      edgeDipArcmin,
      shades: this.shades,
      strength: isPoint ? Math.min(1, Math.max(0, 0.3 + 0.25 * margin)) : 1,
    };
  }

  private halt(reason: string): void {
    this.stopped = true;
    this.panel.setStopped(true);
    this.stop.hidden = false;
    this.stop.textContent = reason;
    this.context.fillStyle = this.inks.paper;
    this.context.fillRect(0, 0, 800, 600);
  }
  /** The next frame stops again where the shades are still wrong. */
  private goOn(): void {
    const seconds = (performance.now() - this.started) / 1000;
    const { reflected, direct } = seenIn(this.scene(this.sky.bodyAt(this.now()), seconds));
    if (this.isSun && dangerOf(reflected, direct, this.shades)) return;
    this.stopped = false;
    this.panel.setStopped(false);
    this.stop.hidden = true;
  }

  private mark(): void {
    if (this.stopped) return;
    const tiltDeg = this.tiltAt((performance.now() - this.started) / 1000);
    const { readingDeg, isInverted, movedMs } = this;
    const held = { readingDeg, tiltDeg, isInverted, movedMs };
    this.marks = [...this.marks, markAt(this.data, this.sky, this.now(), held)];
    this.panel.setMarked(this.marks.length);
    void this.showScore();
    for (const listener of this.listeners) listener(this.state());
  }

  /** The statistics of the log come with the first mark: whoever only looks does not load them. */
  private async showScore(): Promise<void> {
    const { marks } = this;
    const table = h('div', { class: 'ch-scroll' }, marksTable(marks));
    this.score.replaceChildren(table, ...[...this.score.children].slice(1));
    const { benchSentences } = await import('../../../views/bench/bench-score.js');
    if (marks !== this.marks) return;
    const sentences = benchSentences(this.data, marks).map((s) => h('p', {}, s));
    this.score.replaceChildren(table, ...sentences);
  }
}

/** Where the telescope looks, and how the hand follows. */
function pointingOf(
  way: FieldScene['way'],
  body: BenchBody,
  edgeDipArcmin: number,
  tiltDeg: number,
): Pointing {
  const middle = (body.lowerDeg + body.upperDeg) / 2;
  if (way === 'inverted') return { panDeg: 0, pitchDeg: middle, tiltDeg };
  if (way === 'artificial') return { panDeg: 0, pitchDeg: -middle, tiltDeg };
  // A hand that rocks also swings to keep the body in the field: it follows about nine tenths of the way.
  const swing = Math.tan(body.lowerDeg * RAD) * Math.tan(tiltDeg * RAD);
  const panDeg = (-0.9 * Math.asin(Math.max(-1, Math.min(1, swing)))) / RAD;
  return { panDeg, pitchDeg: -edgeDipArcmin / 60, tiltDeg };
}
