import type { Angle } from '../../core/units/index.js';
import { View } from '../live/view.js';
import { MIME, type MimeBundle } from '../mime.js';
import { tableHtml, type PlainTable } from '../plain-table.js';
import { svgMarkup } from '../svg/svg-node.js';
import { drumPose, eyeFigures } from './drum-pose.js';
import { instrumentData, type InstrumentData, type InstrumentOptions } from './instrument-data.js';
import { instrumentSvg } from './instrument-svg.js';
import { readingText } from './misreading.js';

/** What is read where: `34° on the arc, 17′ on the drum, vernier line 6: 34°17.6′`. */
export function readingWords(readingDeg: number): string {
  const pose = drumPose(readingDeg);
  const { arcDeg, drumMinutes, offTheArc } = eyeFigures(pose);
  const taken =
    offTheArc && pose.drumMinutes > 0
      ? `; off the arc, 60′ − ${pose.drumMinutes.toFixed(1)}′ = ${(60 - pose.drumMinutes).toFixed(1)}′`
      : '';
  return `Arc ${arcDeg}°, drum ${drumMinutes}′, vernier line ${pose.vernierLine}${taken}: ${readingText(pose.readingDeg)}`;
}

/** The figures one by one, as they are taken down. */
export function readingTable(readingDeg: number): PlainTable {
  const pose = drumPose(readingDeg);
  const { arcDeg, drumMinutes, offTheArc } = eyeFigures(pose);
  const drum = pose.drumMinutes.toFixed(1);
  const taken = offTheArc && pose.drumMinutes > 0;
  return {
    caption: 'What is read where',
    heads: ['Where', 'What the eye sees', 'Figure'],
    rows: [
      ['Arc', `line last passed, ${offTheArc ? 'off' : 'on'} the arc`, `${arcDeg}°`],
      ['Drum', 'line last passed by the zero of the vernier', `${drumMinutes}′`],
      ['Vernier', 'line that runs into a line of the drum', `0.${pose.vernierLine}′`],
      ...(taken
        ? [['Taken from 60′', `60′ − ${drum}′`, `${(60 - pose.drumMinutes).toFixed(1)}′`]]
        : []),
      ['Reading', 'all together', readingText(pose.readingDeg)],
    ],
  };
}

export function instrumentBundle(data: InstrumentData): MimeBundle {
  const isTold = data.open !== 'trainer';
  const drawing = svgMarkup(instrumentSvg(data.readingDeg, { width: 720, isClose: false, isTold }));
  return {
    [MIME.instrument]: data,
    'text/html': `<div class="cocked-hat-instrument">${drawing}${isTold ? tableHtml(readingTable(data.readingDeg)) : ''}</div>`,
    'text/plain': isTold ? readingWords(data.readingDeg) : 'A sextant to be read',
  };
}

/**
 * A sextant with a micrometer drum at a reading: to look at, to turn, to practise reading on, and with the index check.
 * `sextantView('34°17.6′')`. Code reads what was turned: `(await view.state()).readingDeg`.
 * @throws EntryError for a text that is no angle, RangeError beyond the arc
 */
export const sextantView = (reading: string | Angle, options: InstrumentOptions = {}): View => {
  instrumentData(reading, options);
  return new View((viewId) => instrumentBundle(instrumentData(reading, options, viewId)));
};
