import { frameReadingAt } from '../../../views/instrument/arc-svg.js';
import { ARC_LEAST_DEG, ARC_MOST_DEG } from '../../../views/instrument/drum-pose.js';
import { readingDegrees } from '../../../views/instrument/instrument-data.js';
import { drawingLayout, instrumentSvg } from '../../../views/instrument/instrument-svg.js';
import { readingTable, readingWords } from '../../../views/instrument/instrument-view.js';
import { readingText } from '../../../views/instrument/misreading.js';
import { h } from '../dom.js';
import { plainTable } from '../plain-table.js';
import { svgElement } from '../svg-dom.js';
import type { Services } from '../view.js';

const KEYS: Readonly<Record<string, number>> = {
  ArrowUp: 1,
  ArrowDown: -1,
  ArrowRight: 10,
  ArrowLeft: -10,
  PageUp: 600,
  PageDown: -600,
};
/** A drag over a minute of the drum at its middle, pixels. */
const PX_PER_MINUTE = 12;

/** The drawn sextant; when it may be turned, by dragging the drum, by keys and by a written reading. */
export class DrawnSextant {
  readonly element = h('div', { class: 'ch-sextant' });
  private close = false;
  private width = 0;
  private drawnWidth = 720;
  private readonly resize = new ResizeObserver(() => {
    if (Math.abs(this.element.clientWidth - this.width) > 8) this.draw();
  });

  constructor(
    private readingDeg: number,
    private readonly isTold: boolean,
    private readonly onTurn?: (readingDeg: number) => void,
  ) {
    if (onTurn) this.listen();
    this.resize.observe(this.element);
    this.draw();
  }

  show(readingDeg: number): void {
    this.readingDeg = Math.min(ARC_MOST_DEG, Math.max(ARC_LEAST_DEG, readingDeg));
    this.draw();
  }
  setClose(isClose: boolean): void {
    this.close = isClose;
    this.draw();
  }
  dispose(): void {
    this.resize.disconnect();
  }
  get svg(): SVGSVGElement | null {
    return this.element.querySelector('svg');
  }

  private draw(): void {
    this.width = this.element.clientWidth;
    const { close, isTold } = this;
    const width = (this.drawnWidth = Math.max(280, Math.min(760, this.width || 720)));
    this.element.replaceChildren(
      svgElement(instrumentSvg(this.readingDeg, { width, isClose: close, isTold })),
    );
  }

  private turn(tenths: number): void {
    const at = (Math.round(this.readingDeg * 600) + tenths) / 600;
    this.onTurn?.(Math.min(ARC_MOST_DEG, Math.max(ARC_LEAST_DEG, at)));
  }

  /** The reading under the pointer, or null where the pointer is not on the picture of the frame. */
  private armAt(event: PointerEvent, anywhere = false): number | null {
    const box = this.svg?.getBoundingClientRect();
    if (!box || box.width === 0) return null;
    const { frame } = drawingLayout(this.drawnWidth);
    const scale = this.drawnWidth / box.width;
    const [x, y] = [(event.clientX - box.left) * scale, (event.clientY - box.top) * scale];
    if (!anywhere && (x > frame.width || y > frame.height)) return null;
    return frameReadingAt(x, y, frame);
  }

  /** The arm let go of the worm moves by whole teeth, a degree each: the drum stays as it is. */
  private swing(event: PointerEvent): void {
    const target = this.armAt(event, true);
    if (target !== null) this.turn(Math.round(target - this.readingDeg) * 600);
  }

  private listen(): void {
    const { element } = this;
    element.tabIndex = 0;
    element.setAttribute('role', 'slider');
    element.setAttribute('aria-label', 'Reading of the sextant');
    element.addEventListener('keydown', (event) => {
      const step = KEYS[event.key];
      if (step === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      this.turn(step);
    });
    element.addEventListener('pointerdown', (down) => {
      const from = { y: down.clientY, at: this.readingDeg };
      element.setPointerCapture(down.pointerId);
      const byArm = this.armAt(down) !== null;
      const move = (event: PointerEvent) => {
        if (byArm) return this.swing(event);
        const minutes = (event.clientY - from.y) / (PX_PER_MINUTE * (this.close ? 2 : 1));
        this.turn(Math.round((from.at - this.readingDeg) * 600 + minutes * 10));
      };
      if (byArm) this.swing(down);
      const end = () => element.removeEventListener('pointermove', move);
      element.addEventListener('pointermove', move);
      element.addEventListener('pointerup', end, { once: true });
      element.addEventListener('pointercancel', end, { once: true });
    });
  }
}

/** The reading pane: the sextant, what is read where, and ways to set it. */
export function readerPane(
  readingDeg: number,
  services: Services,
  onTurn: (readingDeg: number) => void,
): { element: HTMLElement; sextant: DrawnSextant; show(readingDeg: number): void } {
  const { t } = services;
  const table = h('div', { class: 'ch-tables' });
  const words = h('p', { class: 'ch-result', 'aria-live': 'polite' });
  const field = h('input', { type: 'text', size: 22, 'aria-label': t('Set the reading') });
  const complaint = h('p', { class: 'ch-flag', hidden: true, role: 'alert' });
  const sextant = new DrawnSextant(readingDeg, true, (at) => set(at));
  const show = (at: number) => {
    sextant.show(at);
    words.textContent = readingWords(at);
    table.replaceChildren(plainTable(readingTable(at), services));
    sextant.element.setAttribute('aria-valuetext', readingText(at));
    sextant.element.setAttribute('aria-valuenow', at.toFixed(3));
    sextant.element.setAttribute('aria-valuemin', String(ARC_LEAST_DEG));
    sextant.element.setAttribute('aria-valuemax', String(ARC_MOST_DEG));
    if (document.activeElement !== field) field.value = readingText(at);
    complaint.hidden = true;
    field.removeAttribute('aria-invalid');
  };
  const set = (at: number) => {
    show(at);
    onTurn(at);
  };
  field.addEventListener('change', () => {
    try {
      const at = readingDegrees(field.value);
      if (!(at >= ARC_LEAST_DEG && at <= ARC_MOST_DEG))
        throw new RangeError(t('The arc runs from 5° off the arc to 125°.'));
      set(at);
    } catch (error) {
      field.setAttribute('aria-invalid', 'true');
      complaint.hidden = false;
      complaint.textContent = error instanceof Error ? error.message : String(error);
    }
  });
  const close = h('button', { type: 'button', 'aria-pressed': 'false' }, t('Close to the vernier'));
  close.addEventListener('click', () => {
    const isClose = close.getAttribute('aria-pressed') !== 'true';
    close.setAttribute('aria-pressed', String(isClose));
    sextant.setClose(isClose);
  });
  const row = h(
    'div',
    { class: 'ch-bar-row ch-screen' },
    h('label', {}, `${t('Reading')} `, field),
    close,
    h(
      'span',
      { class: 'ch-sub' },
      t(
        'Drag the arm by whole degrees or the drum by tenths, or use the arrow keys: up and down a tenth, left and right a minute, page keys a degree.',
      ),
    ),
  );
  show(readingDeg);
  return { element: h('div', {}, words, sextant.element, row, complaint, table), sextant, show };
}
