/** The part of plotly.js that we call. */
export interface PlotlyLibrary {
  react(host: HTMLElement, data: unknown[], layout: object, config?: object): Promise<unknown>;
  relayout(host: HTMLElement, layout: object): Promise<unknown>;
  purge(host: HTMLElement): void;
  toImage(host: HTMLElement, options: object): Promise<string>;
  Plots: { resize(host: HTMLElement): void };
}

let loading: Promise<PlotlyLibrary> | undefined;

/** plotly.js (cartesian bundle), bundled with us; fetched from our own folder when the first plot is shown. */
export function loadPlotly(): Promise<PlotlyLibrary> {
  return (loading ??= import('plotly.js/dist/plotly-cartesian.min.js').then(
    (m) => (m.default ?? m) as unknown as PlotlyLibrary,
  ));
}
