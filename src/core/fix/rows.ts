import { ghaRateArcminPerS, type AltitudeObservation } from '../line/observation.js';
import { OutOfRangeError } from '../units/errors.js';
import type { AltitudeRow } from './altitude-model.js';
import type { FixSettings } from './fix-options.js';
import type { Run } from './run.js';

/** A round may not claim an altitude without error: 0.01′ is less than any sextant can do. */
const LEAST_SIGMA_ARCMIN = 0.01;

/** The row of plain numbers that the solver works on. */
export function rowOf(o: AltitudeObservation, run: Run, settings: FixSettings): AltitudeRow {
  const causes =
    settings.sigmaArcmin === undefined
      ? o.causes
      : [{ cause: 'stated', sigmaArcmin: settings.sigmaArcmin }];
  const own = causes.filter((c) => c.sharedKey === undefined);
  if (causes.length === 0)
    throw new OutOfRangeError(
      `the altitude of ${o.body} has no stated error: give the sight a sigma, or the fix: { sigma: '0.8′' }`,
    );
  return {
    ghaDeg: o.gha.degrees,
    decDeg: o.declination.degrees,
    observedDeg: o.observed.degrees,
    ownSigmaArcmin: Math.max(
      Math.sqrt(own.reduce((s, c) => s + c.sigmaArcmin ** 2, 0)),
      LEAST_SIGMA_ARCMIN,
    ),
    shared: causes.flatMap((c) =>
      c.sharedKey === undefined ? [] : [{ key: c.sharedKey, sigmaArcmin: c.sigmaArcmin }],
    ),
    watchSigmaS: settings.sigmaArcmin === undefined ? (o.watch?.sigma.seconds ?? 0) : 0,
    watchKey: o.watch?.key ?? '',
    ghaRateArcminPerS: ghaRateArcminPerS(o.body),
    legs: run.legs,
    runErrors: run.errors,
  };
}
