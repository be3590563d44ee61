import { formatAngle, formatLatitude, formatLongitude, Instant } from '../../core/units/index.js';
import type { BenchData } from './bench-data.js';

/** One mark of the observer, with what was true at that moment. */
export interface BenchMark {
  /** Noted to the second. */
  readonly notedMs: number;
  readonly readingDeg: number;
  /** What a perfect observer would have read. */
  readonly truthDeg: number;
  /** Tilt of the sextant at the mark, degrees, and how much too great it makes the reading, minutes of arc. */
  readonly tiltDeg: number;
  readonly tiltArcmin: number;
  /** How far the reading is too great besides: the limb was not at the line it is brought to. */
  readonly contactArcmin: number;
  /** Seconds from the touch to the mark, late +, where the drum was left alone until the body came; else null. */
  readonly lagS: number | null;
}

const cell = (text: string) => (/[",]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

const reading = (deg: number) => (deg < 0 ? `${formatAngle(-deg)} off the arc` : formatAngle(deg));

/** The sight log of the session as CSV, readings as noted; the truth stands in the remarks. */
export function benchCsv(data: BenchData, marks: readonly BenchMark[]): string {
  const e = data.indexErrorArcmin;
  const index = e === 0 ? '0.0′' : `${Math.abs(e).toFixed(1)}′ ${e < 0 ? 'off' : 'on'} the arc`;
  const head =
    'round,sight,UTC,body,limb,reading,index error,horizon,height of eye (m),temperature (°C),pressure (hPa),position,latitude,longitude,remarks';
  const rows = marks.map((mark, i) =>
    [
      'practice bench',
      String(i + 1),
      Instant.fromEpochMs(mark.notedMs).toString().replace(' UTC', ''),
      data.body,
      data.limb === 'centre' ? '' : data.limb,
      reading(mark.readingDeg),
      index,
      data.horizon,
      data.horizon === 'natural' ? String(data.eyeHeightM) : '',
      String(data.temperatureC),
      String(data.pressureHpa),
      'known',
      formatLatitude(data.latDeg, 3),
      formatLongitude(data.lonDeg, 3),
      `true reading ${formatAngle(mark.truthDeg, 2)}; tilt ${mark.tiltDeg.toFixed(1)}°`,
    ]
      .map(cell)
      .join(','),
  );
  return (
    [
      `# Practice bench, seed ${data.seed}: taken by hand on a computed sky, not at sea.`,
      head,
      ...rows,
    ].join('\n') + '\n'
  );
}
