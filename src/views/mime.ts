import { DISPLAY, type MimeBundle } from '../log/display/install-display.js';

export { DISPLAY, type MimeBundle };

/** MIME types of our views; the number is the version of the data format. */
export const MIME = {
  working: 'application/vnd.cocked-hat.working.v1+json',
  chart: 'application/vnd.cocked-hat.chart.v1+json',
  residuals: 'application/vnd.cocked-hat.residuals.v1+json',
  uncertainty: 'application/vnd.cocked-hat.uncertainty.v1+json',
  log: 'application/vnd.cocked-hat.log.v1+json',
  passage: 'application/vnd.cocked-hat.passage.v1+json',
  instrument: 'application/vnd.cocked-hat.instrument.v1+json',
  edit: 'application/vnd.cocked-hat.edit.v1+json',
  bench: 'application/vnd.cocked-hat.bench.v1+json',
  sky: 'application/vnd.cocked-hat.sky.v1+json',
  plotly: 'application/vnd.plotly.v1+json',
} as const;

/** The names of the views. */
export type ViewName = Exclude<keyof typeof MIME, 'plotly'>;

/** Something that shows itself in a notebook. */
export interface Displayable {
  /** The output of the cell whose last value this is, richest kind first. */
  [DISPLAY](): MimeBundle;
}
