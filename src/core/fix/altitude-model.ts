import { altitudeKernel, type AltAz } from '../line/altitude-kernel.js';
import { rhumbDestinationKernel } from '../line/rhumb-kernel.js';
import { cosDeg } from '../line/trig.js';
import { type Matrix, zeros } from './matrix.js';

/** One straight piece of the run: a rhumb line from the fix position towards where a sight was taken. */
export interface Leg {
  readonly courseDeg: number;
  readonly distanceM: number;
}

/** An error that acts on several altitudes at once; rows with the same key share one standard normal number. */
export interface SharedError {
  readonly key: string;
  readonly sigmaArcmin: number;
}

/** How far one standard deviation of a run error moves the place of a sight, minutes of arc north and east. */
export interface RunError {
  readonly key: string;
  readonly northArcmin: number;
  readonly eastArcmin: number;
}

/** One altitude as the solver sees it: plain numbers. */
export interface AltitudeRow {
  readonly ghaDeg: number;
  readonly decDeg: number;
  /** Observed altitude Ho, degrees. */
  readonly observedDeg: number;
  /** Standard deviation of what is this sight's own, minutes of arc. */
  readonly ownSigmaArcmin: number;
  readonly shared: readonly SharedError[];
  /** Standard deviation of the watch in seconds, change of GHA in minutes of arc per second, and who shares the watch. */
  readonly watchSigmaS: number;
  readonly ghaRateArcminPerS: number;
  readonly watchKey: string;
  /** From the fix to the place of this sight, and how well that is known. */
  readonly legs: readonly Leg[];
  readonly runErrors: readonly RunError[];
}

/** The altitudes at one trial position: residuals, derivatives. */
export interface Evaluation {
  /** Observed less computed altitude, minutes of arc. */
  readonly residuals: number[];
  /** Per row: change of computed altitude per minute of arc that the fix moves north, east. */
  readonly design: Matrix;
  readonly altAz: readonly AltAz[];
  /** Latitude where each sight was taken, degrees. */
  readonly latDeg: readonly number[];
}

/** Where a sight was taken when the fix is at `latDeg`, `lonDeg`. */
export function placeOfSight(latDeg: number, lonDeg: number, legs: readonly Leg[]) {
  let place = { latDeg, lonDeg };
  for (const leg of legs)
    if (leg.distanceM !== 0)
      place = rhumbDestinationKernel(place.latDeg, place.lonDeg, leg.courseDeg, leg.distanceM);
  return place;
}

const scratch: AltAz = { altDeg: 0, azDeg: 0 };

/** Observed less computed altitudes for a fix at `latDeg`, `lonDeg`, minutes of arc. */
export function residuals(rows: readonly AltitudeRow[], latDeg: number, lonDeg: number): number[] {
  return rows.map((row) => {
    const p = row.legs.length ? placeOfSight(latDeg, lonDeg, row.legs) : { latDeg, lonDeg };
    const { altDeg } = altitudeKernel(p.latDeg, p.lonDeg, row.ghaDeg, row.decDeg, scratch);
    return (row.observedDeg - altDeg) * 60;
  });
}

/** Residuals and derivatives of all rows for a fix at `latDeg`, `lonDeg`. */
export function evaluate(rows: readonly AltitudeRow[], latDeg: number, lonDeg: number): Evaluation {
  const residuals: number[] = [];
  const design: Matrix = [];
  const altAz: AltAz[] = [];
  const lats: number[] = [];
  const cosFix = Math.max(cosDeg(latDeg), 1e-9);
  for (const row of rows) {
    const place = placeOfSight(latDeg, lonDeg, row.legs);
    const computed = altitudeKernel(place.latDeg, place.lonDeg, row.ghaDeg, row.decDeg);
    const az = (computed.azDeg * Math.PI) / 180;
    // A metre east at the fix is another difference of longitude than a metre east at the sight.
    const eastScale = row.legs.length ? cosDeg(place.latDeg) / cosFix : 1;
    residuals.push((row.observedDeg - computed.altDeg) * 60);
    design.push([Math.cos(az), Math.sin(az) * eastScale]);
    altAz.push(computed);
    lats.push(place.latDeg);
  }
  return { residuals, design, altAz, latDeg: lats };
}

/**
 * Covariance of the observed-less-computed altitudes, square minutes of arc: own errors on the diagonal; shared
 * causes, watch and run errors on and off it. A watch error dt moves the computed altitude by dh/dt × dt.
 * @param ownScale factor on the standard deviations that are the sights' own
 */
export function covariance(rows: readonly AltitudeRow[], e: Evaluation, ownScale = 1): Matrix {
  const n = rows.length;
  const c = zeros(n);
  rows.forEach((row, i) => ((c[i] as number[])[i] = (row.ownSigmaArcmin * ownScale) ** 2));
  for (const s of sensitivities(rows, e).values())
    for (let i = 0; i < n; i++) {
      const si = s[i] as number;
      if (si === 0) continue;
      const row = c[i] as number[];
      for (let j = 0; j < n; j++) row[j] = (row[j] as number) + si * (s[j] as number);
    }
  return c;
}

/** Per shared cause: minutes of arc of each row for one standard deviation of the cause, with its sign. */
export function sensitivities(
  rows: readonly AltitudeRow[],
  e: Evaluation,
): ReadonlyMap<string, readonly number[]> {
  const byKey = new Map<string, number[]>();
  const add = (key: string, i: number, arcmin: number) => {
    if (arcmin === 0) return;
    const s = byKey.get(key) ?? new Array<number>(rows.length).fill(0);
    s[i] = (s[i] as number) + arcmin;
    byKey.set(key, s);
  };
  rows.forEach((row, i) => {
    const az = ((e.altAz[i]?.azDeg ?? 0) * Math.PI) / 180;
    for (const { key, sigmaArcmin } of row.shared) add(key, i, sigmaArcmin);
    add(
      `watch:${row.watchKey}`,
      i,
      -row.watchSigmaS * row.ghaRateArcminPerS * cosDeg(e.latDeg[i] as number) * Math.sin(az),
    );
    for (const { key, northArcmin, eastArcmin } of row.runErrors)
      add(`run:${key}`, i, northArcmin * Math.cos(az) + eastArcmin * Math.sin(az));
  });
  return byKey;
}
