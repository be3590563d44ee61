import * as print from '../columns/print-value.js';
import { formatLatitude, formatLongitude } from '../../core/units/index.js';
import type { SimulatedReading } from './truth.js';

const HEADS = [
  'round',
  'sight',
  'UTC',
  'body',
  'limb',
  'reading',
  'observer',
  'instrument',
  'index error',
  'horizon',
  'horizon distance (m)',
  'height of eye (m)',
  'temperature (°C)',
  'pressure (hPa)',
  'position',
  'latitude',
  'longitude',
  'course',
  'speed (kn)',
  'sea',
  'accepted',
  'reason',
  'remarks',
];

/** The log that the observers would have written, as CSV in our own format. @param preamble comment lines without # */
export function simulatedCsv(
  readings: readonly SimulatedReading[],
  preamble: readonly string[],
): string {
  const rows = readings.map(cells);
  const used = HEADS.map((_, i) => rows.some((row) => row[i] !== ''));
  const line = (row: readonly string[]) =>
    row
      .filter((_, i) => used[i])
      .map((c) => (/[",]/.test(c) ? `"${c.replaceAll('"', '""')}"` : c))
      .join(',');
  return [...preamble.map((p) => `# ${p}`), line(HEADS), ...rows.map(line)].join('\n') + '\n';
}

function cells({ truth, readingDeg, notedMs }: SimulatedReading): string[] {
  const { noted } = truth;
  const bare = (value: number, decimals: number) => String(Number(value.toFixed(decimals)));
  const placed = noted.latDeg !== undefined && noted.lonDeg !== undefined;
  return [
    truth.round,
    truth.sight,
    print.utc(notedMs),
    truth.body,
    truth.limb === 'centre' ? '' : truth.limb,
    print.reading(readingDeg),
    truth.observer.name,
    truth.instrument,
    noted.indexError ?? '',
    truth.horizon,
    truth.horizonDistanceM === undefined ? '' : bare(truth.horizonDistanceM, 0),
    noted.eyeHeight ?? bare(truth.eyeHeightM, 1),
    bare(truth.temperatureC, 0),
    bare(truth.pressureHpa, 0),
    placed ? (noted.positionKind ?? 'DR') : '',
    placed ? formatLatitude(noted.latDeg as number) : '',
    placed ? formatLongitude(noted.lonDeg as number) : '',
    noted.course ?? '',
    noted.speed ?? '',
    noted.sea ?? '',
    noted.accepted ?? '',
    noted.reason ?? '',
    noted.remarks ?? '',
  ];
}
