import type { PlotlyFigure } from '../../views/chart/chart-figure.js';
import { stillPlot } from '../../views/svg/still-plot.js';
import { colours, onThemeChange } from './colours.js';
import { h } from './dom.js';
import { FIGURE_CONFIG, figureTemplate, saveButtons } from './plotly-figure.js';
import type { PlotlyLibrary } from './plotly.js';
import { svgElement } from './svg-dom.js';
import type { Services } from './view.js';

interface PlotlyHost extends HTMLElement {
  on?(event: string, listener: (event: { points?: { customdata?: unknown }[] }) => void): void;
}

/** A plotly figure inside one of our views, redrawn as its figure or the page's theme changes. */
export class Plot {
  readonly element: PlotlyHost = h('div', { class: 'ch-plot' });
  private readonly stops: (() => void)[] = [];
  private plotly: PlotlyLibrary | undefined;
  private figure: PlotlyFigure | undefined;
  private isWired = false;
  private isStill = false;
  private stillWidth = 0;
  /** To be drawn once it is in the page: only there do the roles have their colours. */
  private isWaiting = false;

  constructor(
    private readonly services: Services,
    /** Called with the `customdata` of a point the reader picks or points at. */
    private readonly onPoint: (key: string, isPicked: boolean) => void = () => {},
  ) {
    const resize = new ResizeObserver(() => {
      if (!this.element.isConnected) return;
      if (this.isWaiting) void this.draw();
      else if (this.isStill) this.fitStill();
      else if (this.isWired) this.plotly?.Plots.resize(this.element);
    });
    resize.observe(this.element);
    this.stops.push(
      () => resize.disconnect(),
      onThemeChange(() => void this.draw()),
    );
  }

  async show(figure: PlotlyFigure): Promise<void> {
    this.figure = figure;
    this.element.setAttribute('role', 'img');
    this.element.setAttribute('aria-label', figureName(figure));
    try {
      this.plotly ??= await this.services.plotly();
    } catch {
      // A page that carries no plotly, or cannot load it, shows the figure as a still drawing.
      this.isStill = true;
    }
    await this.draw();
  }

  dispose(): void {
    for (const stop of this.stops) stop();
    if (this.isWired) this.plotly?.purge(this.element);
  }

  /** Only a new width is drawn anew: the drawing itself changes the height. */
  private fitStill(): void {
    const width = this.element.clientWidth;
    if (width === this.stillWidth || !this.figure) return;
    this.stillWidth = width;
    this.drawStill(this.figure);
  }

  private drawStill(figure: PlotlyFigure): void {
    const width = Math.max(260, this.element.clientWidth || 640);
    this.element.classList.add('ch-still');
    this.element.replaceChildren(svgElement(stillPlot(figure, width)));
  }

  private async draw(): Promise<void> {
    const { plotly, figure } = this;
    if (this.isStill && figure) return this.drawStill(figure);
    if (!plotly || !figure) return;
    this.isWaiting = !this.element.isConnected;
    if (this.isWaiting) return;
    // On a resize plotly takes the height of its element, not of its layout.
    const { height } = figure.layout as { height?: number };
    if (height) this.element.style.height = `${height}px`;
    const layout = {
      ...figure.layout,
      ...fewerTimes(figure, this.element.clientWidth),
      ...narrowWords(figure, this.element.clientWidth),
      ...this.bands(figure),
      template: figureTemplate(this.element),
    };
    await plotly.react(this.element, [...figure.data], layout, {
      ...FIGURE_CONFIG,
      modeBarButtonsToAdd: saveButtons(plotly, this.services.t),
    });
    if (this.isWired) return;
    this.isWired = true;
    const key = (event: { points?: { customdata?: unknown }[] }) => event.points?.[0]?.customdata;
    this.element.on?.('plotly_click', (event) => {
      const found = key(event);
      if (typeof found === 'string') this.onPoint(found, true);
    });
    this.element.on?.('plotly_hover', (event) => {
      const found = key(event);
      if (typeof found === 'string') this.onPoint(found, false);
    });
  }

  /** Shapes named `band` take the colour of a region, those named `rule` that of faint ink. */
  private bands({ layout }: PlotlyFigure): { shapes?: unknown[] } {
    const shapes = layout['shapes'];
    if (!Array.isArray(shapes)) return {};
    const { region, faint } = colours(this.element);
    return {
      shapes: shapes.map((shape: Record<string, unknown>) =>
        shape['name'] === 'band'
          ? { ...shape, fillcolor: region }
          : shape['name'] === 'rule'
            ? { ...shape, line: { ...(shape['line'] as object), color: faint } }
            : shape,
      ),
    };
  }
}

/** What a time needs on an axis, px; only the first has its date below. With less room plotly sets the labels upright. */
const TIME_LABEL_PX = 55;
/** What the labels of the other axis take from the width. */
const BESIDE_PX = 80;

/** On a narrow screen an axis of time has no more labels than lie side by side. */
function fewerTimes({ layout }: PlotlyFigure, width: number): { xaxis?: object } {
  const xaxis = layout['xaxis'] as { type?: string } | undefined;
  if (xaxis?.type !== 'date' || width === 0) return {};
  const nticks = Math.max(2, Math.floor((width - BESIDE_PX) / TIME_LABEL_PX));
  return nticks < 7 ? { xaxis: { ...xaxis, nticks } } : {};
}

/** Narrower than this a legend at the side leaves no room for the plot. */
const NARROW_PX = 480;

/** On a narrow screen the legend stands below, and words within the plot take more lines. */
function narrowWords({ layout }: PlotlyFigure, width: number): object {
  if (width === 0 || width >= NARROW_PX) return {};
  const annotations = (layout['annotations'] ?? []) as { text?: string }[];
  return {
    legend: layout['legend'] ?? { orientation: 'h', x: 0, y: -0.3, yanchor: 'top' },
    annotations: annotations.map((a) => ({
      ...a,
      align: 'left',
      text: a.text?.replace(/([:,]) /g, '$1<br>'),
    })),
  };
}

/** `Residual, minutes of arc, against Time, UTC`: what a screen reader says; the figures are in the table. */
function figureName({ layout }: PlotlyFigure): string {
  const title = (name: string) =>
    (layout[name] as { title?: { text?: string } } | undefined)?.title?.text;
  const own = (layout['title'] as { text?: string } | undefined)?.text;
  const axes = [title('yaxis'), title('xaxis')].filter(Boolean).join(', against ');
  return [own, axes].filter(Boolean).join(': ');
}
