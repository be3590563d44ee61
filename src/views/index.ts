import './install.js';
export { MIME, DISPLAY, type Displayable, type MimeBundle, type ViewName } from './mime.js';
export { View, type ViewState, toDisplay, type RawDisplay } from './live/index.js';
export { chart, chartFigure } from './chart/index.js';
export { residuals, withRejections } from './residuals/index.js';
export { uncertainty } from './uncertainty/index.js';
export { workingView } from './working/working-view.js';
export { workingText, workingData, workingHtml } from './working/index.js';
export { sextantView } from './instrument/index.js';
