import { Length, type Angle, type Position } from '../../core/units/index.js';
import type { ExpectedLine, Figures, LineSlip } from '../question/index.js';
import { meetingPoint, type PlottedLine } from './two-lines.js';

/** Latitude and longitude where the plotted lines meet; each slip is one line plotted wrongly. */
export function fixLines<G>(
  marks: readonly { readonly mark: string; readonly name: string }[],
  from: (given: G, figures: Figures) => Position,
): ExpectedLine<G>[] {
  const plotted = (f: Figures): PlottedLine[] =>
    marks.map(({ mark }) => ({
      intercept: f.length(`intercept${mark}`),
      azimuth: f.angle(`zn${mark}`),
    }));
  const slips = (part: (p: Position) => Angle) => (g: G, f: Figures) =>
    plottedSlips(from(g, f), plotted(f), marks, part);
  const line = (id: 'latitude' | 'longitude', part: (p: Position) => Angle): ExpectedLine<G> => ({
    id,
    title: id === 'latitude' ? 'Latitude of the fix' : 'Longitude of the fix',
    quantity: id,
    formula:
      'where the position lines cross on the plotting sheet, or the middle of what they enclose',
    rule: (g, f) => part(meetingPoint(from(g, f), plotted(f))),
    slips: slips(part),
    standard: 'fix',
    tolerance: PLOT,
    marks: 2,
    hint: 'Each line stands at right angles to its azimuth, through the end of its intercept.',
  });
  return [line('latitude', (p) => p.latitude), line('longitude', (p) => p.longitude)];
}

/** Plotting adds its own error to that of the lines. */
const PLOT = Object.freeze({
  size: 2,
  unit: '′',
  reason: 'a fix is to be plotted within 2 miles of the assessor’s',
  source: 'USCG NVIC 12-14, tasks 1.1.E and 1.1.F',
} as const);

function plottedSlips(
  from: Position,
  lines: readonly PlottedLine[],
  marks: readonly { readonly name: string }[],
  part: (p: Position) => Angle,
): LineSlip[] {
  const changed = (i: number, change: Partial<PlottedLine>) =>
    part(
      meetingPoint(
        from,
        lines.map((l, k) => (k === i ? { ...l, ...change } : l)),
      ),
    );
  return lines.flatMap((line, i) => [
    {
      name: 'intercept plotted the wrong way',
      value: changed(i, { intercept: Length.nauticalMiles(-line.intercept.nauticalMiles) }),
      sentence: `The intercept of ${marks[i]?.name ?? 'one line'} was plotted the other way: toward goes along the azimuth, away against it.`,
    },
  ]);
}
