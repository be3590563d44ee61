import { SightLog, simulatePracticeAfternoon } from '../../src/index.js';
import { editData, MOST_READINGS } from '../../src/views/edit/edit-data.js';
import { benchBundle } from '../../src/views/bench/bench-view.js';
import { instrumentData } from '../../src/views/instrument/instrument-data.js';
import { instrumentBundle } from '../../src/views/instrument/instrument-view.js';
import { skyBundle } from '../../src/views/sky/sky-view.js';
import { chartBundle } from '../../src/views/chart/chart-view.js';
import { MIME } from '../../src/views/mime.js';
import { residualsBundle } from '../../src/views/residuals/residual-view.js';
import { uncertaintyBundle } from '../../src/views/uncertainty/uncertainty-view.js';
import { workingBundle } from '../../src/views/working/working-view.js';
import { reduce, position, sight } from '../../src/index.js';
import { afternoonBench, eveningSky } from '../support/make-views.js';
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

/** The readings of an afternoon over and over, as many as the editor takes. */
function longestLog() {
  const data = editData(SightLog.fromCsv(simulatePracticeAfternoon(3).csv), {
    log: 'log',
    as: 'amended',
  });
  const rows = Array.from({ length: MOST_READINGS }, (_, i) => ({
    ...(data.rows[i % data.rows.length] as (typeof data.rows)[number]),
    number: i + 1,
  }));
  return { ...data, rows };
}

/** View data of twelve sights and of one reduction, of the other views, and of the longest log, as JSON on the standard output. */
const data = {
  working: [MIME.working, workingBundle(reduce(forenoon))[MIME.working]],
  chart: [MIME.chart, chartBundle(twelve)[MIME.chart]],
  residuals: [MIME.residuals, residualsBundle(twelve)[MIME.residuals]],
  uncertainty: [MIME.uncertainty, uncertaintyBundle(twelve)[MIME.uncertainty]],
  sextant: [MIME.instrument, instrumentBundle(instrumentData('34°17.6′'))[MIME.instrument]],
  bench: [MIME.bench, benchBundle(afternoonBench())[MIME.bench]],
  sky: [MIME.sky, skyBundle(eveningSky())[MIME.sky]],
  editor: [MIME.edit, longestLog()],
};
process.stdout.write(JSON.stringify(data));
