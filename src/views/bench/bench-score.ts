import { estimateText, meanEstimate, practiceSession, SightLog } from '../../log/index.js';
import { dipKernel } from '../../core/sextant/index.js';
import { benchLight } from './bench-light.js';
import type { BenchData } from './bench-data.js';
import { benchCsv, type BenchMark } from './bench-log.js';

/** Marks with a lag that make a mean worth saying. */
const LEAST = 3;

/**
 * What the marks come to, in sentences: first the judgement of the log, as of any log; then what only a bench can know, since
 * it has the truth: the swing, the touch of the limb, the lag. Means with Student's interval, as everywhere in the library.
 */
export function benchSentences(data: BenchData, marks: readonly BenchMark[]): string[] {
  if (marks.length < LEAST) return ['The score comes with three marks.'];
  const session = practiceSession(SightLog.fromCsv(benchCsv(data, marks)));
  return [
    ...session.sentences,
    ...swing(data, marks),
    ...touch(data, marks),
    ...haze(data),
    ...lag(marks),
  ];
}

function swing(data: BenchData, marks: readonly BenchMark[]): string[] {
  if (data.horizon === 'artificial') return [];
  const high = meanEstimate(marks.map((m) => m.tiltArcmin));
  return [
    `Swing: not at its lowest, which makes readings too great by ${estimateText(high)}${
      high.value < 0.1 ? '; well rocked' : '. Rock, and take the lowest point of the arc'
    }.`,
  ];
}

/** What is wrong with the touch when the reading is too great: the limb stands lower than it should. */
function touchWords(data: BenchData, isTooGreat: boolean): string {
  if (data.limb === 'centre')
    return isTooGreat ? 'the body stood below the line' : 'the body stood above the line';
  const isOverlapped = isTooGreat === (data.limb === 'lower');
  const line = data.horizon === 'artificial' ? 'the two discs' : 'limb and horizon';
  return isOverlapped ? `${line} overlapped` : `${line} did not touch`;
}

function touch(data: BenchData, marks: readonly BenchMark[]): string[] {
  const off = meanEstimate(marks.map((m) => m.contactArcmin));
  const size = Math.abs(off.value);
  const sized = off.value < 0 ? { ...off, value: size, low: -off.high, high: -off.low } : off;
  if (size < 0.05) return ['Touch: as often over as under.'];
  return [`Touch: on the mean ${touchWords(data, off.value > 0)}, by ${estimateText(sized)}.`];
}

function haze(data: BenchData): string[] {
  if (data.horizon === 'artificial' || data.visibilityM === undefined) return [];
  const { isFalseHorizon, edgeDipArcmin } = benchLight(30, data.eyeHeightM, data.visibilityM);
  if (!isFalseHorizon) return [];
  const deeper = edgeDipArcmin - dipKernel(data.eyeHeightM);
  return [
    `Haze: the horizon was hidden, and the edge of the sea stood ${deeper.toFixed(1)}′ below it; readings brought to that edge are too great by as much.`,
  ];
}

function lag(marks: readonly BenchMark[]): string[] {
  const lags = marks.flatMap((m) => (m.lagS === null ? [] : [m.lagS]));
  if (lags.length < LEAST) return [];
  const late = meanEstimate(lags);
  const word = late.value < 0 ? 'before' : 'after';
  const sized =
    late.value < 0 ? { ...late, value: -late.value, low: -late.high, high: -late.low } : late;
  return [
    `Time: ${lags.length} marks waited for the touch, and were pressed ${estimateText(sized, 's')} ${word} it.`,
  ];
}
