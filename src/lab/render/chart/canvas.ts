import { chartSvg, frameFor, type Coast } from '../../../views/chart/chart-svg.js';
import type { ChartChoices, ChartScene } from '../../../views/chart/scene.js';
import {
  panned,
  placeAt,
  project,
  zoomed,
  type ChartWindow,
  type Place,
  type Point,
} from '../../../views/chart/window.js';
import { h, s } from '../dom.js';
import { svgElement } from '../svg-dom.js';

export interface CanvasCallbacks {
  readonly onWindow: (w: ChartWindow) => void;
  readonly onDr: (place: Place) => void;
  readonly onLine: (key: string | undefined) => void;
}

const GRAB_PX = 20;
const KEY_PAN_PX = 60;

let serial = 0;

/** The chart itself: drawn anew at each change, dragged, zoomed, its DR movable by pointer or keys. */
export class ChartCanvas {
  readonly element: HTMLDivElement;
  private readonly clip = `ch-canvas-${(serial += 1)}`;
  private drag: { readonly what: 'chart' | 'dr'; last: Point } | undefined;
  private window: ChartWindow | undefined;
  private dr: Place | undefined;

  constructor(
    label: string,
    hint: string,
    private readonly callbacks: CanvasCallbacks,
  ) {
    this.element = h('div', {
      class: 'ch-canvas',
      tabindex: 0,
      role: 'group',
      'aria-label': `${label}. ${hint}`,
    });
    this.element.addEventListener('pointerdown', (event) => this.grab(event));
    this.element.addEventListener('pointermove', (event) => this.follow(event));
    this.element.addEventListener('pointerup', (event) => this.release(event));
    this.element.addEventListener('pointercancel', (event) => this.release(event));
    this.element.addEventListener('pointerover', (event) => this.pointAt(event));
    this.element.addEventListener('wheel', (event) => this.wheel(event), { passive: false });
    this.element.addEventListener('keydown', (event) => this.key(event));
  }

  /** Width there is, and a height that suits it. */
  get size(): { width: number; height: number } {
    const width = Math.max(300, Math.min(1060, this.element.clientWidth || 720));
    return { width, height: Math.round(Math.max(320, Math.min(640, width * 0.72))) };
  }

  show(scene: ChartScene, w: ChartWindow, choices: ChartChoices, coast: Coast): void {
    this.dr = scene.dr?.place;
    const size = this.size;
    const frame = frameFor(size.width, size.height);
    this.window = { ...w, frame };
    const drawing = svgElement(
      chartSvg(scene, this.window, size, { choices, coast, clip: this.clip }),
    );
    for (const line of drawing.querySelectorAll<SVGElement>('path[data-line]'))
      line.after(wideTarget(line));
    this.element.replaceChildren(drawing);
  }

  /** A line pointed at is chosen in every view. */
  private pointAt(event: PointerEvent): void {
    const { hit } = (event.target as SVGElement).dataset;
    if (!this.drag) this.callbacks.onLine(hit);
  }

  /** Gestures may come faster than frames: each goes on from the one before, not from what is drawn. */
  private look(w: ChartWindow): void {
    this.window = w;
    this.callbacks.onWindow(w);
  }
  private putDr(place: Place): void {
    this.dr = place;
    this.callbacks.onDr(place);
  }

  /** A point of the drawing under the pointer; the drawing may be shown smaller than it is. */
  private at(event: MouseEvent): Point {
    const svg = this.element.firstElementChild;
    const box = (svg ?? this.element).getBoundingClientRect();
    const scale = box.width > 0 ? this.size.width / box.width : 1;
    return [(event.clientX - box.left) * scale, (event.clientY - box.top) * scale];
  }

  private grab(event: PointerEvent): void {
    if (!this.window || event.button !== 0) return;
    const last = this.at(event);
    const dr = this.dr && project(this.window, this.dr);
    const isDr = dr && Math.hypot(dr[0] - last[0], dr[1] - last[1]) < GRAB_PX;
    this.drag = { what: isDr ? 'dr' : 'chart', last };
    this.element.setPointerCapture(event.pointerId);
    this.element.classList.add('ch-dragging');
  }

  private follow(event: PointerEvent): void {
    if (!this.drag || !this.window) return;
    const at = this.at(event);
    if (this.drag.what === 'dr') this.putDr(placeAt(this.window, at));
    else {
      const [x, y] = this.drag.last;
      this.look(panned(this.window, at[0] - x, at[1] - y));
    }
    this.drag.last = at;
  }

  private release(event: PointerEvent): void {
    if (this.drag?.what === 'dr' && this.window) this.putDr(placeAt(this.window, this.at(event)));
    this.drag = undefined;
    this.element.classList.remove('ch-dragging');
  }

  /** With Ctrl, or once the chart has the focus: a page must stay scrollable over it. */
  private wheel(event: WheelEvent): void {
    if (!this.window || !(event.ctrlKey || this.element.matches(':focus'))) return;
    event.preventDefault();
    this.look(zoomed(this.window, 1.0016 ** -event.deltaY, this.at(event)));
  }

  private key(event: KeyboardEvent): void {
    const w = this.window;
    if (!w || event.ctrlKey || event.metaKey || event.altKey) return;
    const steps: Readonly<Record<string, Point>> = {
      ArrowLeft: [1, 0],
      ArrowRight: [-1, 0],
      ArrowUp: [0, 1],
      ArrowDown: [0, -1],
    };
    const step = steps[event.key];
    const { dr } = this;
    if (step && event.shiftKey && dr) {
      const [x, y] = project(w, dr);
      this.putDr(placeAt(w, [x - step[0] * 4, y - step[1] * 4]));
    } else if (step) this.look(panned(w, step[0] * KEY_PAN_PX, step[1] * KEY_PAN_PX));
    else if (event.key === '+' || event.key === '=') this.look(zoomed(w, 1.5));
    else if (event.key === '-') this.look(zoomed(w, 1 / 1.5));
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
}

/** An unseen line over a thin one, wide enough to be pointed at. */
function wideTarget(line: SVGElement): SVGPathElement {
  return s('path', {
    d: line.getAttribute('d'),
    fill: 'none',
    stroke: 'transparent',
    'stroke-width': 12,
    'data-hit': line.dataset['line'],
  });
}
