import { altitudeKernel, altitudeRateKernel } from '../line/altitude-kernel.js';
import { ghaRateArcminPerS, observationOf, type AltitudeObservation } from '../line/observation.js';
import { observedAltitude } from '../sextant/observed-altitude.js';
import type { Sight } from '../sextant/sight.js';
import { Angle } from '../units/angle.js';
import { OutOfRangeError } from '../units/errors.js';
import { Position } from '../units/position.js';
import type { Length } from '../units/scalar.js';
import type { AltitudeRow } from './altitude-model.js';
import { Fix, type FixParts } from './fix-result.js';
import { fix } from './fix.js';
import type { FixOptions } from './fix-options.js';
import { isInReach, misnamedThroughout } from './misnamed-throughout.js';
import { logDeterminant, cholesky, type Matrix } from './matrix.js';
import { readingCorrections, readingScatter, withoutReading } from './reading-slips.js';
import { slipHypotheses, type SlipHypothesis } from './slip-hypotheses.js';
import { slipRule } from './slip-kinds.js';
import { finding, posterior, SLIP_CHANCE, SlipReport, type Scored } from './slip-report.js';
import { solve, type Solution } from './solve.js';

/** What the search for slips may be told. */
export interface SlipOptions {
  /** Altitude as the person worked it, when it is not the library's own working of the sight. */
  readonly worked?: Angle;
  /** One standard deviation of the known place in each direction; nothing unless told. */
  readonly placeSigma?: Length;
  /** Probability that a sight has a slip at all, before looking: 0.02 unless told. */
  readonly slipChance?: number;
}

/** How far a slip that is on no list may move an altitude either way. */
const UNLISTED_RANGE_ARCMIN = 3600;
/** Below this difference of log probability a slip of one reading is not weighed any further. */
const LEAST_GAIN = -40;
/** How closely a person's working agrees with one by formula: tables are printed to 0.1′. */
const WORKING_SIGMA_ARCMIN = 0.2;

const logNormal = (x: number, sigma: number): number =>
  -0.5 * (x / sigma) ** 2 - Math.log(sigma) - 0.5 * Math.log(2 * Math.PI);

/**
 * Ranks the slips that could explain one sight taken at a known place, by Bayes' rule: prior frequency times how well the
 * residual fits when the slip is undone. Without a slip the residual is normal with the sight's own sigma.
 * @param place where the sight was truly taken
 * @throws OutOfRangeError when the body is more than 1° below the horizon
 */
export function findSlip(sight: Sight, place: Position, options: SlipOptions = {}): SlipReport {
  const o = observationOf(sight);
  const sigma = sigmaAt(o, place, options.placeSigma?.nauticalMiles ?? 0);
  const misworked = options.worked
    ? options.worked.minus(observedAltitude(sight).value).arcminutes
    : 0;
  const worked = options.worked ?? o.observed;
  const residualAt = (p: Position, h?: SlipHypothesis): number => {
    const [gha, dec] = h ? [h.ghaDeg, h.decDeg] : [o.gha.degrees, o.declination.degrees];
    const { altDeg } = altitudeKernel(p.latDeg, p.lonDeg, gha, dec);
    return worked.arcminutes + (h?.altitudeArcmin ?? 0) - altDeg * 60;
  };
  const log = (h: SlipHypothesis): number => {
    const fits = logNormal(residualAt(mirrored(place, h), h), sigma);
    return fits + workingEvidence(h, misworked, options.worked !== undefined);
  };
  const asItStands = residualAt(place);
  const unchanged = options.worked ? logNormal(misworked, WORKING_SIGMA_ARCMIN) : 0;
  const scored: Scored[] = [
    { kind: 'clean', log: logNormal(asItStands, sigma) + unchanged, h: null },
    ...slipHypotheses(sight, place.lonDeg).map((h) => ({ kind: h.kind, log: log(h), h })),
    ...ofReadings(sight, o, place.latDeg, place.lonDeg, (altitudeArcmin, varianceArcmin2) => {
      const wider = Math.sqrt(sigma ** 2 + varianceArcmin2);
      return logNormal(asItStands + altitudeArcmin, wider) + unchanged;
    }),
    {
      kind: 'unexplained',
      log:
        -Math.log(2 * UNLISTED_RANGE_ARCMIN) +
        (options.worked ? -Math.log(2 * UNLISTED_RANGE_ARCMIN) : 0),
      h: null,
    },
  ];
  const left = ({ kind, h }: Scored): number | null =>
    h ? residualAt(mirrored(place, h), h) : kind === 'clean' ? asItStands : null;
  const findings = posterior(scored, options.slipChance ?? SLIP_CHANCE).map(
    ({ item, probability }) => finding(item, sight, probability, left(item)),
  );
  return new SlipReport(findings, Angle.arcminutes(asItStands));
}

/**
 * Explanations by one reading of a sight: each usual slip of each reading, and each wrong by something else.
 * @param evidence log probability of the altitude when so much is added to it and to its variance
 */
function ofReadings(
  sight: Sight,
  { gha, declination }: AltitudeObservation,
  latDeg: number,
  lonDeg: number,
  evidence: (altitudeArcmin: number, varianceArcmin2: number) => number,
): Scored[] {
  const scatter = readingScatter(sight, latDeg, lonDeg);
  if (!scatter) return [];
  const of = scatter.offArcmin.length;
  const place = { ghaDeg: gha.degrees, decDeg: declination.degrees };
  return [
    ...readingCorrections(scatter).map(({ kind, detail, reading, altitudeArcmin, gain }) => ({
      kind,
      // Where the readings themselves speak so much against it, "all of them wrong by something" is always likelier.
      log: gain < LEAST_GAIN ? -Infinity : gain + evidence(altitudeArcmin, 0),
      h: { kind, detail, altitudeArcmin, ...place },
      reading,
      of,
    })),
    ...withoutReading(scatter, UNLISTED_RANGE_ARCMIN).map((without) => ({
      kind: 'unexplained' as const,
      log: without.gain + evidence(without.altitudeArcmin, without.varianceArcmin2),
      h: null,
      reading: without.reading,
      of,
    })),
  ];
}

/**
 * Ranks the slips that could explain a round: each sight in turn, each slip undone, the round fixed anew; one slip at
 * most, of a whole sight or of one of its readings (where each has its own time); a body misnamed, in all its sights too. Needs at least three sights, since two always
 * agree.
 * @param options as for `fix()`, and the chance of a slip
 * @throws OutOfRangeError with fewer than three sights
 */
export function findSlips(
  sights: readonly Sight[],
  options: FixOptions & { readonly slipChance?: number } = {},
): SlipReport {
  if (sights.length < 3)
    throw new OutOfRangeError(
      `a slip shows by contradiction, and ${sights.length} sights cannot contradict each other: use three or more, or a known place with findSlip`,
    );
  const start = fix(sights, options);
  const parts = Fix.partsOf(start);
  const evidence = (s: Solution) => roundEvidence(s, parts);
  // A gross line may have drawn the fix anywhere: the DR, where there is one, is the better start.
  const from = parts.dr ?? parts.solution;
  const solveWith = (rows: FixParts['rows']) =>
    solve(rows, {
      start: from,
      prior: parts.prior,
      commonBias: parts.settings.commonBias,
    });
  const scored: Scored[] = [{ kind: 'clean', log: evidence(parts.solution), h: null, sight: null }];
  const each = 1 / parts.rows.length;
  parts.observations.forEach((o, i) => {
    if (!o.sight) return;
    const without = solveWith(parts.rows.filter((_, k) => k !== i));
    scored.push({
      kind: 'unexplained',
      log: evidence(without) - Math.log(2 * UNLISTED_RANGE_ARCMIN),
      h: null,
      sight: o.sight,
      share: each,
    });
    const { latDeg, lonDeg } = parts.solution;
    const withRow = (change: Partial<AltitudeRow>) =>
      evidence(solveWith(parts.rows.map((r, k) => (k === i ? { ...r, ...change } : r))));
    const { observedDeg, ownSigmaArcmin } = parts.rows[i] as AltitudeRow;
    for (const h of slipHypotheses(o.sight, lonDeg)) {
      if (h.mirror || isWorking(h)) continue;
      const { ghaDeg, decDeg } = h;
      const moved = observedDeg + h.altitudeArcmin / 60;
      const isOut = h.kind === 'body misnamed' && !isInReach(without, moved, h);
      const log = isOut ? -Infinity : withRow({ ghaDeg, decDeg, observedDeg: moved });
      scored.push({ kind: h.kind, log, h, sight: o.sight, share: each });
    }
    const single = ofReadings(o.sight, o, latDeg, lonDeg, (altitudeArcmin, varianceArcmin2) =>
      withRow({
        observedDeg: observedDeg + altitudeArcmin / 60,
        ownSigmaArcmin: Math.sqrt(ownSigmaArcmin ** 2 + varianceArcmin2),
      }),
    );
    scored.push(...single.map((s) => ({ ...s, sight: o.sight ?? null, share: each })));
  });
  scored.push(...misnamedThroughout(parts, solveWith, evidence));
  const findings = posterior(scored, options.slipChance ?? SLIP_CHANCE).map(
    ({ item, probability }) => finding(item, item.sight ?? null, probability, null),
  );
  return new SlipReport(findings, null);
}

/** A slip in the working shows in the difference from the library's own working of the same entries; one in the entries does not. */
function workingEvidence(h: SlipHypothesis, misworked: number, known: boolean): number {
  const inWorking = isWorking(h);
  if (!known) return inWorking ? -Infinity : 0;
  return logNormal(inWorking ? misworked + h.altitudeArcmin : misworked, WORKING_SIGMA_ARCMIN);
}
const isWorking = (h: SlipHypothesis): boolean =>
  h.inWorking === true || slipRule(h.kind).made === 'working';

function mirrored(place: Position, h: SlipHypothesis): Position {
  if (h.mirror === 'latitude') return Position.degrees(-place.latDeg, place.lonDeg);
  if (h.mirror === 'longitude') return Position.degrees(place.latDeg, -place.lonDeg);
  return place;
}

function sigmaAt(o: AltitudeObservation, place: Position, placeSigmaArcmin: number): number {
  const { azDeg } = altitudeKernel(
    place.latDeg,
    place.lonDeg,
    o.gha.degrees,
    o.declination.degrees,
  );
  const rate = altitudeRateKernel(place.latDeg, azDeg, ghaRateArcminPerS(o.body));
  const timed = rate * (o.watch?.sigma.seconds ?? 0);
  const own = o.causes.reduce((s, c) => s + c.sigmaArcmin ** 2, 0);
  return Math.sqrt(own + timed ** 2 + placeSigmaArcmin ** 2);
}

/** Log probability of the altitudes with the position integrated out (a flat prior, or the one given). */
function roundEvidence(s: Solution, { prior }: FixParts): number {
  const n = s.residuals.length;
  const spread = logDeterminant(cholesky(s.altitudeCovariance) as Matrix);
  const normal = cholesky(s.normal);
  const loose = prior
    ? logDeterminant(cholesky(prior.information) as Matrix)
    : 2 * Math.log(2 * Math.PI);
  if (!normal) return -Infinity;
  return (
    -0.5 * (n * Math.log(2 * Math.PI) + spread + s.chi2) + 0.5 * (loose - logDeterminant(normal))
  );
}
