import './install.js';
export { MIME, DISPLAY, type Displayable, type MimeBundle, type ViewName } from './mime.js';
export { View, type ViewState, toDisplay, type RawDisplay } from './live/index.js';
export {
  chart,
  chartFigure,
  type ChartLine,
  type ChartScene,
  type PlotlyFigure,
} from './chart/index.js';
export {
  residuals,
  withRejections,
  type ResidualAxis,
  type ResidualsOptions,
} from './residuals/index.js';
export { uncertainty } from './uncertainty/index.js';
export { workingView } from './working/working-view.js';
export { workingText, workingData, workingHtml } from './working/index.js';
export { skyView, type SkyOptions } from './sky/index.js';
export { sextantView, type InstrumentOptions } from './instrument/index.js';
export { practiceBench, type BenchOptions } from './bench/index.js';
export { editLog, type EditOptions } from './edit/index.js';
