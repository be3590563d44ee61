import { placeOfSight } from '../../core/fix/altitude-model.js';
import type { Fix } from '../../core/fix/index.js';
import { altitudeKernel } from '../../core/line/index.js';
import { Sight } from '../../core/sextant/index.js';
import type { LogRow, SightLog } from '../../log/index.js';
import { flag, list, number, oneOf, optional, record, text, within } from '../check.js';
import { fixInputs, type FixInputs } from '../chart/chart-inputs.js';
import { ChartModel } from '../chart/chart-model.js';
import { fixLabel } from '../chart/chart-text.js';
import { anything } from '../check.js';
import { ephemerisUsedBy, type EphemerisPieces } from '../inputs/ephemeris-pieces.js';
import { readPlaces, sightInputs } from '../working/working-inputs.js';
import { sharedErrorNote } from './shared-note.js';
import type { Encoded } from '../inputs/encode.js';
import { ephemerisPieces } from '../inputs/check-pieces.js';

/** One sight (or one reading of a log) against what is computed. */
export interface ResidualPoint {
  /** Names the sight across views: `Altair 2027-05-14 05:24:07 UTC`. */
  readonly key: string;
  readonly body: string;
  readonly timeMs: number;
  /** Observed altitude, and the altitude computed for the fix or the reference, degrees. */
  readonly altitudeDeg: number;
  readonly computedDeg: number;
  readonly azimuthDeg: number;
  readonly observer: string;
  /** Observed less computed, minutes of arc: toward the body positive. */
  readonly residualArcmin: number;
  readonly sigmaArcmin: number;
  /** In units of its own standard deviation given the others; absent where nothing checks it. */
  readonly standardised?: number;
  readonly isAccepted: boolean;
  readonly reason?: string;
  /** What the sight was made from, for its working. */
  readonly fields?: Encoded;
}

/** Data of the residuals view. */
export interface ResidualsData {
  readonly format: 1;
  readonly title: string;
  /** What the residuals are taken against: `the fix`, `track`. */
  readonly reference: string;
  readonly points: readonly ResidualPoint[];
  /** A sentence below the table. */
  readonly note?: string;
  /** The fix is worked out again without the sights that are rejected. */
  readonly fix?: FixInputs;
  readonly ephemeris?: EphemerisPieces;
  /** How it is laid out at first: `time` unless told. */
  readonly laidOutBy?: string;
  readonly viewId?: string;
}

const sightsOf = (fix: Fix): Sight[] =>
  fix.lines.flatMap(({ observation: { sight } }) => (sight instanceof Sight ? [sight] : []));

/** Residuals of a fix with these sights switched off; those too are compared with the fix of the others. */
export function fixPoints(model: ChartModel, off: readonly string[] = []): ResidualPoint[] {
  const { fix, keys } = model.with({ off });
  if (!fix) return [];
  const legs = new Map(model.with({}).fix?.lines.map((line) => [line.observation, line.legs]));
  return model.observations.map(({ key, observation: o }): ResidualPoint => {
    const residual = fix.residuals[keys.indexOf(key)];
    const at = placeOfSight(fix.position.latDeg, fix.position.lonDeg, legs.get(o) ?? []);
    const hc = altitudeKernel(at.latDeg, at.lonDeg, o.gha.degrees, o.declination.degrees);
    const off = (o.observed.degrees - hc.altDeg) * 60;
    const variance = o.causes.reduce((sum, c) => sum + c.sigmaArcmin ** 2, 0);
    const w = residual?.standardised ?? undefined;
    return {
      key,
      body: o.body,
      timeMs: o.instant.epochMs,
      altitudeDeg: o.observed.degrees,
      computedDeg: hc.altDeg,
      azimuthDeg: hc.azDeg,
      observer: o.observer ?? '',
      residualArcmin: residual?.residual.arcminutes ?? off,
      sigmaArcmin: residual?.sigma.arcminutes ?? Math.sqrt(variance),
      ...(w === undefined ? {} : { standardised: w }),
      isAccepted: residual !== undefined,
    };
  });
}

export function fixResidualsData(fix: Fix, viewId?: string): ResidualsData {
  const inputs = fixInputs(fix);
  const model = ChartModel.from(inputs);
  const sights = sightsOf(fix);
  const note = sharedErrorNote(fix.lines.map((line) => line.observation));
  const ephemeris = sights.length ? ephemerisUsedBy(() => sights.forEach(readPlaces)) : undefined;
  const points = fixPoints(model).map((point, i) => {
    const sight = fix.lines[i]?.observation.sight;
    return sight instanceof Sight ? { ...point, fields: sightInputs(sight) } : point;
  });
  return {
    format: 1,
    title: `Residuals: ${lowerFirst(fixLabel(fix))}`,
    reference: 'the fix',
    points,
    ...(note === undefined ? {} : { note }),
    fix: inputs,
    ...(ephemeris ? { ephemeris } : {}),
    ...(viewId ? { viewId } : {}),
  };
}

const lowerFirst = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);

const MOST_POINTS = 2000;

/** The name of a reading across views: its body and time. */
export const rowKey = ({ body, utcMs }: Pick<LogRow, 'body' | 'utcMs'>): string =>
  `${body} ${new Date(utcMs).toISOString().slice(0, 19).replace('T', ' ')} UTC`;

/** The column says `track`; a sentence, the track. */
const articled = (name: string) => name.replace(/^(?=track|known)/, 'the ');

/** Residuals of a log against what each row is compared with; standardised by the sigma of its budget. */
export function logResidualsData(log: SightLog, viewId?: string): ResidualsData {
  const references = new Set<string>();
  const points = log.rows().flatMap((row): ResidualPoint[] => {
    const { residualArcmin, hoDeg, znDeg, sigmaArcmin, reference } = row;
    if (residualArcmin === null || hoDeg === null || znDeg === null) return [];
    references.add(reference ?? '');
    const sigma = sigmaArcmin ?? 0;
    return [
      {
        key: rowKey(row),
        body: row.body,
        timeMs: row.utcMs,
        altitudeDeg: hoDeg,
        computedDeg: hoDeg - residualArcmin / 60,
        azimuthDeg: znDeg,
        observer: row.observer ?? '',
        residualArcmin,
        sigmaArcmin: sigma,
        ...(sigma > 0 ? { standardised: residualArcmin / sigma } : {}),
        isAccepted: row.accepted,
        ...(row.reason ? { reason: row.reason } : {}),
      },
    ];
  });
  return {
    format: 1,
    title: `Residuals of ${points.length} readings`,
    reference: [...references].map(articled).join(', '),
    points: points.slice(0, MOST_POINTS),
    ...(viewId ? { viewId } : {}),
  };
}

const point = record({
  key: text,
  body: text,
  timeMs: within(-8.64e15, 8.64e15),
  altitudeDeg: within(-180, 180),
  computedDeg: within(-360, 360),
  azimuthDeg: within(-360, 720),
  observer: text,
  residualArcmin: number,
  sigmaArcmin: within(0, 1e6),
  standardised: optional(number),
  isAccepted: flag,
  reason: optional(text),
  fields: optional(anything),
});

const fields = record({
  format: oneOf(1),
  title: text,
  reference: text,
  points: list(point, MOST_POINTS),
  note: optional(text),
  fix: optional(record({ observations: list(anything, 500), options: anything })),
  ephemeris: optional(ephemerisPieces),
  laidOutBy: optional(text),
  viewId: optional(text),
});

/** Residuals data out of a notebook file. @throws ViewDataError naming the field that is wrong */
export const checkResidualsData = (value: unknown): ResidualsData =>
  fields(value, '') as unknown as ResidualsData;
