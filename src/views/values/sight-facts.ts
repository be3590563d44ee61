import type { Sight } from '../../core/sextant/index.js';
import { formatBearing } from '../../core/units/index.js';
import type { Facts } from './facts.js';

/** A sight as it stands in the log: what was typed, and what is assumed where nothing was. */
export function sightFacts(sight: Sight): Facts {
  const rows = [
    ...readingRows(sight),
    ['Horizon', horizonText(sight)],
    ['Height of eye', sight.eyeHeight],
    ['Index error', indexText(sight)],
    ['Certificate', sight.instrumentTable && 'given'],
    ['Air', joined(sight.temperature, sight.pressure)],
    ['Watch', sight.watch && `checked, ± ${sight.watch.sigma.toString()}, 1σ`],
    ['DR', sight.dr],
    ['Course and speed', joined(sight.course && formatBearing(sight.course.degrees), sight.speed)],
    ['Observer', sight.observer],
    ['Sextant', sight.instrument],
    ['Uncertainty', sight.sigma && `± ${sight.sigma.arcminutes.toFixed(1)}′, 1σ, as stated`],
    ['Almanac', sight.place && 'figures as printed'],
    ['Remarks', sight.remarks],
  ] as const;
  return {
    title: `Sight: ${sight.bodyAndLimb}`,
    rows: rows.flatMap(([name, value]) => (value ? [[name, value.toString()] as const] : [])),
    assumed: sight.assumptions,
    notes: sight.doubts,
  };
}

function readingRows({ readings, instant }: Sight): (readonly [string, string])[] {
  const timed = readings.some((r) => r.instant !== undefined);
  const rows = readings.map(
    (r, i) =>
      [
        readings.length > 1 ? `Reading ${i + 1}` : 'Reading',
        r.instant ? `${r.angle.toString()} at ${r.instant.toString()}` : r.angle.toString(),
      ] as const,
  );
  return timed && readings.length === 1 ? rows : [...rows, ['Time', timeText(instant, timed)]];
}

const timeText = (instant: Sight['instant'], isMean: boolean): string =>
  isMean ? `${instant.toSecond()}, the mean` : instant.toString();

function horizonText({ horizon }: Sight): string {
  switch (horizon.kind) {
    case 'natural':
      return 'the sea';
    case 'short':
      return `a waterline at ${horizon.distance.toString()}`;
    case 'artificial':
      return 'artificial: the reading is twice the altitude';
    case 'bubble':
      return 'bubble';
  }
}

function indexText({ indexError }: Sight): string | undefined {
  if (!indexError) return undefined;
  const arcmin = indexError.arcminutes;
  if (Math.abs(arcmin) < 0.05) return 'none';
  return `${Math.abs(arcmin).toFixed(1)}′ ${arcmin > 0 ? 'on' : 'off'} the arc`;
}

function joined(...parts: readonly ({ toString(): string } | undefined)[]): string {
  return parts.flatMap((part) => (part ? [part.toString()] : [])).join(', ');
}
