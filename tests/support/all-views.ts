import fs from 'node:fs';
import path from 'node:path';
import { passageQuality, SightLog, Track, type Displayable } from '../../src/index.js';
import { observedAltitude, position, reduce, sight } from '../../src/index.js';
import { chartBundle } from '../../src/views/chart/chart-view.js';
import { instrumentData } from '../../src/views/instrument/instrument-data.js';
import { instrumentBundle } from '../../src/views/instrument/instrument-view.js';
import { DISPLAY, MIME, type MimeBundle } from '../../src/views/mime.js';
import { passageBundle } from '../../src/views/passage/passage-view.js';
import { residualsBundle } from '../../src/views/residuals/residual-view.js';
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

/** One bundle of each view, of invented sights. */
export function allViews(): Record<string, MimeBundle> {
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
    instrument: instrumentBundle(instrumentData('34°17.6′')),
    figure: {
      [MIME.plotly]: chartBundle(sampleFix())[MIME.plotly],
      'text/plain': 'figure',
    },
  };
}
