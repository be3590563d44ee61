import { Instant } from '../../core/units/index.js';
import { outlierLimit } from '../statistics/outliers.js';
import * as print from '../columns/print-value.js';
import type { Explanation } from './explanations.js';
import type { Outlier, PracticeFigures } from './practice-session.js';
import type { RunSlope } from './run-slopes.js';
import { counted } from '../../core/units/counted.js';
import { clear, estimateText, probabilityText, signedMinutes, sizeOf } from './words.js';

/** Under this probability a check speaks up. */
const ALARM = 0.05;

/** What one part of the report is about, and what it says. */
export interface PracticePart {
  readonly about: string;
  readonly sentences: readonly string[];
}

/** What a practice session comes to, part by part, a sentence or two each. */
export function practiceParts(f: PracticeFigures): PracticePart[] {
  const scatter = `One reading scatters by ${estimateText(f.scatter, '′', 2)}, one standard deviation.`;
  const parts: PracticePart[] = [
    { about: 'Readings', sentences: [used(f), ...outlierSentences(f)] },
    { about: 'Bias', sentences: [bias(f)] },
    { about: 'Scatter', sentences: [scatter] },
    { about: 'Run', sentences: f.runs.map(runSentence) },
    { about: 'Trend', sentences: [trend(f)] },
    { about: 'Order and spread', sentences: checks(f) },
    { about: 'Explanation', sentences: explanationSentences(f.explanations) },
  ];
  return parts.filter((part) => part.sentences.length > 0);
}

function used(f: PracticeFigures): string {
  const out = f.outliers.length;
  const open = f.unreferenced
    ? ` ${counted(f.unreferenced, 'reading')} had nothing to be compared with.`
    : '';
  return `${counted(f.readings.length, 'reading')} compared with the known place, ${out === 0 ? 'none' : out} set aside as too far from the rest (over ${outlierLimit(f.readings.length).toFixed(1)} robust standard deviations).${open}`;
}

/** A sentence for each reading set aside; with its date where the readings are of several days. */
export function outlierSentences({
  readings,
  outliers,
}: Pick<PracticeFigures, 'readings' | 'outliers'>): string[] {
  const days = new Set(
    [...readings, ...outliers].map(({ row }) => print.utc(row.utcMs).slice(0, 10)),
  );
  return outliers.map((o) => outlierSentence(o, days.size > 1));
}

/** `Set aside: Sun, 13:19:42, residual +10.2′: most likely minute of time (1 minute earlier, leaving +0.7′).` */
function outlierSentence(o: Outlier, isDated: boolean): string {
  const [best, second] = o.slips;
  const utc = print.utc(o.row.utcMs);
  const where = `${o.row.body}, ${isDated ? utc : utc.slice(11)}, residual ${signedMinutes(o.residualArcmin)}`;
  if (!best && o.row.reference === 'fix of the round')
    return `Set aside: ${where}: without a known place, look for the slip with findSlips(log.round('${o.row.round}')).`;
  if (o.believable)
    return `Set aside: ${where}: far from the rest, but no more than a reading may be off (its own σ is ${o.row.sigmaArcmin!.toFixed(1)}′): no slip is looked for.`;
  if (!best) return `Set aside: ${where}: no slip known here explains it.`;
  const or =
    second && second.probability > 0.2 * best.probability ? `, or ${second.toString()}` : '';
  return `Set aside: ${where}: most likely ${best.toString()}${or}.`;
}

function bias(f: PracticeFigures): string {
  const { value } = f.bias;
  if (!clear(f.bias))
    return `The readings show no clear bias: mean residual ${estimateText(f.bias, '′', 2, true)}.`;
  return `The readings are too ${value > 0 ? 'high' : 'low'} by ${estimateText(sizeOf(f.bias), '′', 2)} on the mean: the personal bias, with any error common to all of them.`;
}

function runSentence(r: RunSlope): string {
  const rate = (v: number) => `${v.toFixed(2).replace('-', '−')}′`;
  const verdict = clear(r.difference)
    ? 'the run is steeper or flatter than it should be: look at the times'
    : 'as it should be within the scatter';
  const minute = (ms: number) => Instant.fromEpochMs(ms).nearestMinute().toIso().slice(11, 16);
  return `Run of the ${r.body}, ${minute(r.fromMs)} to ${minute(r.toMs)}: observed ${rate(r.observed)} a minute, computed ${rate(r.computed)}; difference ${estimateText(r.difference, '′', 3)}: ${verdict}.`;
}

function trend({ trend: t }: PracticeFigures): string {
  if (!t) return 'There are too few readings to see a trend with time.';
  const size = estimateText(t.slope, '′', 2, true, 'an hour');
  return clear(t.slope)
    ? `The residuals drift by ${size}.`
    : `No trend with time can be seen: ${size}.`;
}

function checks(f: PracticeFigures): string[] {
  const runs = f.runsCheck;
  const normal = f.normality;
  return [
    runs
      ? `${counted(runs.runs, 'run')} about the median (${probabilityText(runs.pValue)}): ${runs.pValue < ALARM ? (runs.statistic < 0 ? 'neighbouring readings err alike' : 'neighbouring readings alternate more than chance has it') : 'in no order, as it should be'}.`
      : 'Too few readings on both sides of the median to count runs.',
    normal
      ? `Anderson–Darling ${normal.statistic.toFixed(2)} (${probabilityText(normal.pValue)}): ${normal.pValue < ALARM ? 'the residuals are not normally spread' : 'nothing against a normal spread'}.`
      : 'Too few readings to test for a normal spread.',
  ];
}

function explanationSentences(list: readonly Explanation[]): string[] {
  const [best, ...rest] = list;
  if (!best || !clear(best.size)) return [];
  return [
    `If one thing explains the bias: ${what(best)} (scatter left ${best.scatterArcmin.toFixed(2)}′).`,
    ...rest
      .map((e) => `${what(e)}: ${compared(e)}.`)
      .map((s) => s.charAt(0).toUpperCase() + s.slice(1)),
    'An index error and a personal bias look alike: take an index check before and after.',
  ];
}

function what(e: Explanation): string {
  const size = estimateText(sizeOf(e.size), e.unit, e.unit === '′' ? 2 : 1);
  const more = e.size.value > 0;
  if (e.cause === 'index error')
    return `an index error ${size} further ${more ? 'on' : 'off'} the arc than noted`;
  if (e.cause === 'height of eye')
    return `a height of eye ${size} ${more ? 'more' : 'less'} than noted`;
  return `a watch ${size} ${more ? 'fast' : 'slow'} on what was noted`;
}

function compared(e: Explanation): string {
  const odds = 1 / e.likelihood;
  if (odds < 3) return `explains it as well (scatter left ${e.scatterArcmin.toFixed(2)}′)`;
  const shown = odds > 1000 ? 'over 1000' : odds.toFixed(0);
  return `${odds < 20 ? 'explains it less well' : 'does not explain it'}, ${shown} to 1 against (scatter left ${e.scatterArcmin.toFixed(2)}′)`;
}
