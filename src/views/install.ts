import { Fix } from '../core/fix/index.js';
import { Working } from '../core/working/index.js';
import { installDisplay } from '../log/display/install-display.js';
import { PassageQuality } from '../log/index.js';
import { chartBundle } from './chart/chart-view.js';
import { passageBundle } from './passage/passage-view.js';
import './values/install.js';
import { workingBundle } from './working/index.js';

installDisplay<Fix>(Fix, chartBundle);
installDisplay<PassageQuality>(PassageQuality, passageBundle);
installDisplay<Working<unknown>>(Working as { prototype: Working<unknown> }, workingBundle);
