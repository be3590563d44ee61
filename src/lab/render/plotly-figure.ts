import { colours, hues, onThemeChange, type Role } from './colours.js';
import { h } from './dom.js';
import { safeFigure } from './plotly-safe.js';
import type { PlotlyLibrary } from './plotly.js';
import { stillView, type Services, type ViewHandle } from './view.js';

interface Axis {
  [key: string]: unknown;
}

const axis = (c: Record<Role, string>): Axis => ({
  color: c.ink,
  gridcolor: c.rule,
  linecolor: c.faint,
  zerolinecolor: c.faint,
  tickcolor: c.faint,
  automargin: true,
  title: { font: { size: 13 }, standoff: 8 },
});

/** A plotly template in our roles: what a figure does not say follows the page's theme. */
export function figureTemplate(host: Element): object {
  const c = colours(host);
  const font = getComputedStyle(host).fontFamily;
  return {
    layout: {
      paper_bgcolor: c.paper,
      plot_bgcolor: c.paper,
      font: { color: c.ink, family: font, size: 13 },
      colorway: hues(host),
      xaxis: axis(c),
      yaxis: axis(c),
      legend: { bgcolor: 'rgba(0,0,0,0)', font: { color: c.ink } },
      hoverlabel: { bgcolor: c.paper, bordercolor: c.ink, font: { color: c.ink } },
      modebar: { bgcolor: 'rgba(0,0,0,0)', color: c.faint, activecolor: c.accent },
      title: { font: { size: 15 }, x: 0.02, xanchor: 'left' },
      margin: { l: 60, r: 16, t: 44, b: 48 },
    },
  };
}

export const FIGURE_CONFIG = {
  responsive: true,
  displaylogo: false,
  modeBarButtonsToRemove: ['lasso2d', 'select2d', 'autoScale2d', 'toImage'],
  modeBarButtonsToAdd: [] as unknown[],
};

/** A curve between two handles, and a picture in a frame: the two kinds of file are told apart by sight. */
const CURVE =
  'M3 15h6v6H3zM15 3h6v6h-6zM4.8 13.5C4.8 8 8 4.8 13.5 4.8v2.4C9.4 7.2 7.2 9.4 7.2 13.5z';
const PICTURE = 'M3 4v16h18V4zM5 6h14v12H5zM6.5 16.5h11l-3.5-5-2.5 3-2-2zM7 8v2.5h2.5V8z';

/** The modebar's save button, once as SVG (sharp at any size), once as PNG. */
export function saveButtons(plotly: PlotlyLibrary, t: (text: string) => string): unknown[] {
  const icon = (path: string) => ({ width: 24, height: 24, path });
  const save = (format: 'svg' | 'png') => async (host: HTMLElement) => {
    const url = await plotly.toImage(host, { format, scale: format === 'png' ? 2 : 1 });
    h('a', { href: url, download: `figure.${format}` }).click();
  };
  return [
    { name: 'save-svg', title: t('Save as SVG'), icon: icon(CURVE), click: save('svg') },
    { name: 'save-png', title: t('Save as PNG'), icon: icon(PICTURE), click: save('png') },
  ];
}

/** Any plotly figure of a notebook, in the page's theme, from the bundled library. */
export async function mountPlotly(
  host: HTMLElement,
  data: unknown,
  services: Services,
): Promise<ViewHandle> {
  const figure = safeFigure(data);
  const plot = h('div', { class: 'ch-plot' });
  const card = h('div', { class: 'ch ch-figure-card' }, plot);
  host.replaceChildren(card);
  const plotly = await services.plotly();
  // Only in the page do the roles have their colours.
  let isWaiting = false;
  const draw = async () => {
    isWaiting = !plot.isConnected;
    if (isWaiting) return;
    await plotly.react(
      plot,
      figure.data,
      { height: 420, autosize: true, ...figure.layout, template: figureTemplate(card) },
      { ...FIGURE_CONFIG, modeBarButtonsToAdd: saveButtons(plotly, services.t) },
    );
  };
  await draw();
  const stopTheme = onThemeChange(() => void draw());
  const resize = new ResizeObserver(() => {
    if (!plot.isConnected) return;
    if (isWaiting) void draw();
    else plotly.Plots.resize(plot);
  });
  resize.observe(card);
  return stillView(() => {
    stopTheme();
    resize.disconnect();
    plotly.purge(plot);
    host.replaceChildren();
  });
}
