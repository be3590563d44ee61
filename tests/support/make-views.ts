import fs from 'node:fs';
import path from 'node:path';
import { passageQuality, SightLog, Track, type Displayable } from '../../src/index.js';
import { observedAltitude, position, reduce, sight } from '../../src/index.js';
import { benchData } from '../../src/views/bench/bench-data.js';
import { benchBundle } from '../../src/views/bench/bench-view.js';
import { chartBundle } from '../../src/views/chart/chart-view.js';
import { editData } from '../../src/views/edit/edit-data.js';
import { editBundle } from '../../src/views/edit/edit-view.js';
import { instrumentData } from '../../src/views/instrument/instrument-data.js';
import { instrumentBundle } from '../../src/views/instrument/instrument-view.js';
import { DISPLAY, MIME, type MimeBundle } from '../../src/views/mime.js';
import { passageBundle } from '../../src/views/passage/passage-view.js';
import { residualsBundle } from '../../src/views/residuals/residual-view.js';
import { skyData } from '../../src/views/sky/sky-data.js';
import { skyBundle } from '../../src/views/sky/sky-view.js';
import { uncertaintyBundle } from '../../src/views/uncertainty/uncertainty-view.js';
import { workingBundle } from '../../src/views/working/working-view.js';
import { ROOT } from './browser.js';
import { sampleFix } from './sample-fix.js';

const demo = (file: string) => fs.readFileSync(path.join(ROOT, 'data', 'demo', file), 'utf8');

export const forenoonSight = () =>
  sight({
    body: 'Sun',
    limb: 'lower',
    reading: '39°13.7′',
    time: '2027-05-11 09:42:17 UTC',
    eyeHeight: '2.6 m',
    indexError: '1.4′ off the arc',
    observer: 'A',
    dr: position('19°31′ S', '001°12′ W'),
    course: '312°',
    speed: '5.2 kn',
  });

/** The sky of an evening on the way to Ascension, in the middle of the twilight. */
export const eveningSky = () =>
  skyData({
    dr: position('15°30′ S', '005°10′ W'),
    time: '2027-05-14 18:40:00 UTC',
    course: '312°',
    speed: '5.2 kn',
    eyeHeight: '2.6 m',
    indexError: '1.4′ off the arc',
  });

/** The Sun over a still sea, an afternoon off St Helena. */
export const afternoonBench = () =>
  benchData({
    body: 'Sun',
    time: '2027-05-11 14:30:00 UTC',
    position: position('15°55.2′ S', '005°43.1′ W'),
    eyeHeight: '2.6 m',
    indexErrorArcmin: -1.4,
    seed: 3,
  });

/** One bundle of each view, of invented sights; takes 6 s of CPU, most of it for the passage. */
export function makeViews(): Record<string, MimeBundle> {
  const log = SightLog.fromCsv(demo('passage.csv')).withTrack(
    Track.fromGpx(demo('passage-track.gpx')),
  );
  return {
    working: workingBundle(observedAltitude(forenoonSight())),
    reduction: workingBundle(reduce(forenoonSight())),
    chart: chartBundle(sampleFix()),
    residuals: residualsBundle(sampleFix(12)),
    uncertainty: uncertaintyBundle(sampleFix()),
    passage: passageBundle(passageQuality(log)),
    log: (log as unknown as Displayable)[DISPLAY](),
    edit: editBundle(log, editData(log, { log: 'log', as: 'amended' })),
    instrument: instrumentBundle(instrumentData('34°17.6′')),
    sky: skyBundle(eveningSky()),
    bench: benchBundle(afternoonBench()),
    figure: {
      [MIME.plotly]: chartBundle(sampleFix())[MIME.plotly],
      'text/plain': 'figure',
    },
  };
}
