import { Instant } from '../../../core/units/index.js';
import { h } from '../dom.js';

const MINUTE_MS = 60_000;
const KEYS: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 10,
  PageDown: -10,
};

export interface StripTime {
  readonly atMs: number;
  readonly firstMs: number;
  readonly lastMs: number;
  readonly span: { readonly fromMs: number; readonly toMs: number };
  readonly text: string;
}

/** Lies over the strip of light in the drawing: dragged, or moved by keys, it chooses the time. */
export class TimeStrip {
  readonly element = h('div', {
    class: 'ch-sky-strip ch-screen',
    role: 'slider',
    tabindex: 0,
    'aria-label': 'Time',
  });
  private time: StripTime | undefined;
  /** The stretch of time under the pointer stays the same while it is held. */
  private held: StripTime['span'] | undefined;

  constructor(private readonly onMove: (atMs: number) => void) {
    const { element } = this;
    element.addEventListener('keydown', (event) => this.key(event));
    element.addEventListener('pointerdown', (event) => {
      element.setPointerCapture(event.pointerId);
      this.held = this.time?.span;
      this.point(event);
    });
    element.addEventListener('pointermove', (event) => {
      if (this.held) this.point(event);
    });
    const end = () => (this.held = undefined);
    element.addEventListener('pointerup', end);
    element.addEventListener('pointercancel', end);
  }

  get isHeld(): boolean {
    return this.held !== undefined;
  }

  show(time: StripTime): void {
    this.time = time;
    const { element } = this;
    element.setAttribute('aria-valuemin', String(time.firstMs));
    element.setAttribute('aria-valuemax', String(time.lastMs));
    element.setAttribute('aria-valuenow', String(time.atMs));
    element.setAttribute('aria-valuetext', `${Instant.fromEpochMs(time.atMs)}, ${time.text}`);
  }

  /** Where the strip is in the drawing, in parts of its size. */
  lay(left: number, top: number, width: number, height: number): void {
    const percent = (part: number) => `${(100 * part).toFixed(3)}%`;
    Object.assign(this.element.style, {
      left: percent(left),
      top: percent(top),
      width: percent(width),
      height: percent(height),
    });
  }

  private to(ms: number): void {
    const { time } = this;
    if (time) this.onMove(Math.min(time.lastMs, Math.max(time.firstMs, ms)));
  }

  private key(event: KeyboardEvent): void {
    const { time } = this;
    const ends: Record<string, number | undefined> = { Home: time?.firstMs, End: time?.lastMs };
    const minutes = KEYS[event.key];
    const end = ends[event.key];
    if (!time || (minutes === undefined && end === undefined)) return;
    event.preventDefault();
    event.stopPropagation();
    this.to(end ?? (Math.round(time.atMs / MINUTE_MS) + (minutes ?? 0)) * MINUTE_MS);
  }

  private point(event: PointerEvent): void {
    const box = this.element.getBoundingClientRect();
    if (!this.held || box.width === 0) return;
    const { fromMs, toMs } = this.held;
    const ms = fromMs + ((event.clientX - box.left) / box.width) * (toMs - fromMs);
    this.to(Math.round(ms / MINUTE_MS) * MINUTE_MS);
  }
}
