import { Angle, angle } from '../../src/core/units/index.js';
import { Working, type Step } from '../../src/core/working/index.js';

const entry: Step<Angle> = {
  rule: 'reading',
  title: 'Sextant altitude',
  kind: 'entry',
  formula: { latex: 'h_s', plain: 'hs' },
  figures: 'as read: 41°18.6′',
  inputs: [{ name: 'reading', symbol: 'hs', value: 41.31, text: '41°18.6′', origin: 'reading' }],
  result: angle('41°18.6′'),
  errors: [{ cause: 'observer', sigmaArcmin: 0.7 }],
  source: 'reading',
};
const dip: Step<Angle> = {
  rule: 'dip',
  title: 'Dip of the horizon',
  kind: 'correction',
  formula: { latex: "-1.758'\\sqrt{h}", plain: '−1.758′ √h' },
  figures: '1.758 √2.6',
  inputs: [
    { name: 'height of eye', symbol: 'h', value: 2.6, text: '2.6 m', origin: 'given' },
    { name: 'temperature', symbol: 'T', value: 10, text: '10 °C', origin: 'assumed' },
  ],
  correction: Angle.arcminutes(-2.8),
  result: angle('41°15.8′'),
  errors: [{ cause: 'dip', sigmaArcmin: 0.4 }],
  source: 'almanac, direct computation',
  caution: 'Dip can be minutes off when the air and the sea differ much in temperature.',
};
const rest: Step<Angle> = {
  rule: 'apparent-altitude',
  title: 'Apparent altitude',
  kind: 'rest',
  formula: { latex: 'h_a = h_s + D', plain: 'ha = hs + D' },
  figures: '',
  inputs: [],
  result: angle('41°15.8′'),
  errors: [],
  source: '',
};

/** A small working with invented figures, to try views on. */
export const sampleWorking = (title = 'Apparent altitude: Sun, lower limb'): Working =>
  new Working<Angle>(title, [entry, dip, rest]);
