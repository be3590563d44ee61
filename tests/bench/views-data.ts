import { chartBundle } from '../../src/views/chart/chart-view.js';
import { MIME } from '../../src/views/mime.js';
import { residualsBundle } from '../../src/views/residuals/residual-view.js';
import { uncertaintyBundle } from '../../src/views/uncertainty/uncertainty-view.js';
import { workingBundle } from '../../src/views/working/working-view.js';
import { reduce, position, sight } from '../../src/index.js';
import { sampleFix } from '../support/sample-fix.js';

const forenoon = sight({
  body: 'Sun',
  reading: '39°13.7′',
  time: '2027-05-11 09:42:17 UTC',
  eyeHeight: '2.6 m',
  indexError: '1.4′ off the arc',
  dr: position('19°31′ S', '001°12′ W'),
});
const twelve = sampleFix(12);

/** View data of twelve sights and of one reduction, as JSON on the standard output. */
const data = {
  working: [MIME.working, workingBundle(reduce(forenoon))[MIME.working]],
  chart: [MIME.chart, chartBundle(twelve)[MIME.chart]],
  residuals: [MIME.residuals, residualsBundle(twelve)[MIME.residuals]],
  uncertainty: [MIME.uncertainty, uncertaintyBundle(twelve)[MIME.uncertainty]],
};
process.stdout.write(JSON.stringify(data));
