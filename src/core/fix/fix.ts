import {
  type AltitudeObservation,
  label,
  observationOf,
  type Observed,
} from '../line/observation.js';
import { formatBearing } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import { FAR_ARCMIN, FixFlag, geometryFlags } from './flags.js';
import { fixSettings, type FixOptions, type FixSettings } from './fix-options.js';
import { wantsGrid } from './method.js';
import { type RegionBasis, standardised } from './region-of.js';
import { rowOf } from './rows.js';
import { carriedTo, runBetween, trackOf } from './run.js';
import type { PriorKernel, Solution } from './solve.js';
import { candidates } from './start.js';
import { offset } from './sphere.js';

import { Fix, rival } from './fix-result.js';
/**
 * Fixes the position from sights (or altitudes already worked out), by generalised least squares on the altitudes with
 * the covariance of their shared errors, the run between them and, if asked, the DR.
 *
 * One line gives a band, not a region; parallel, contradictory, doubled or zenith sights give a result whose `flags`
 * say what is wrong. A DR may be hundreds of miles out.
 * @throws OutOfRangeError with no sights, or with a single line and no DR to lay it near
 * @example
 * ```ts
 * import { fix, readText, SightLog } from 'cocked-hat';
 *
 * const log = SightLog.fromCsv(await readText('../data/demo/passage.csv'));
 * const dusk = fix(log.round('2027-05-13 dusk'));
 * console.log(String(dusk.position), '·', String(dusk.region(0.95)));
 * ```
 * ```text
 * 16°54.9′ S, 004°27.7′ W · 95 % region 0.8 × 0.7 nm (semi-axes), long axis 076°
 * ```
 */
export function fix(sights: readonly Observed[], options: FixOptions = {}): Fix {
  const settings = fixSettings(options);
  if (sights.length === 0)
    throw new OutOfRangeError('a fix needs at least one sight; the list is empty');
  const flags: FixFlag[] = [];
  const observations = withoutDuplicates(sights.map(observationOf), flags);
  const at = settings.at ?? latest(observations);
  const track = trackOf(observations, settings);
  const runs = observations.map((o) => runBetween(track, settings, at, o.instant));
  if (!track && runs.some((r) => Math.abs(r.hours) > UNMOVED_HOURS) && observations.some(afloat))
    flags.push(
      new FixFlag(
        'no run',
        'No course and speed are given, so the vessel is taken to lie still between the sights.',
      ),
    );
  const rows = observations.map((o, i) => rowOf(o, runs[i] as (typeof runs)[number], settings));
  const dr = settings.dr ?? drFrom(observations, track, settings, at);
  const prior = priorOf(settings, dr);
  if (observations.length === 1 && !dr)
    throw new OutOfRangeError(
      'a single position line needs a DR to be laid near: { dr: position(…) }',
    );
  const { chosen, rivals } = candidates(rows, dr ?? undefined, prior, settings.commonBias);
  const unknowns = settings.commonBias ? 3 : 2;
  const degreesOfFreedom = Math.max(0, rows.length + (prior ? 2 : 0) - unknowns);
  const estimateSigma = settings.estimateSigma && degreesOfFreedom > 0;
  if (settings.estimateSigma && !estimateSigma)
    flags.push(
      new FixFlag(
        'scatter unknown',
        'There are no more altitudes than unknowns, so the scatter cannot be estimated: the stated sigmas are used.',
      ),
    );
  if (settings.commonBias && !chosen.unknowns)
    flags.push(
      new FixFlag(
        'bias unknown',
        'A common altitude error cannot be told from the position with these bodies: take at least three, all round the horizon.',
      ),
    );
  flags.push(
    ...geometryFlags(
      observations,
      rows,
      chosen,
      standardised(chosen),
      degreesOfFreedom,
      !estimateSigma,
    ),
    ...placeFlags(chosen, rivals, dr),
  );
  const basis: RegionBasis = {
    rows,
    solution: chosen,
    prior,
    commonBias: settings.commonBias,
    estimateSigma,
    degreesOfFreedom,
    grid:
      settings.method === 'auto'
        ? wantsGrid(rows, chosen, estimateSigma)
        : settings.method === 'grid',
  };
  return new Fix({
    observations,
    rows,
    settings,
    at,
    dr,
    solution: chosen,
    rivals,
    prior,
    flags,
    basis,
  });
}

/** Sights within this are taken as simultaneous when no run is given: a minute and a half at 6 knots is 0.15 nm. */
const UNMOVED_HOURS = 0.05;
const afloat = (o: AltitudeObservation) => !o.sight || o.sight.horizon.kind === 'natural';

const latest = (list: readonly AltitudeObservation[]): Instant =>
  list.reduce(
    (t, o) => (o.instant.compare(t) > 0 ? o.instant : t),
    (list[0] as AltitudeObservation).instant,
  );

function drFrom(
  list: readonly AltitudeObservation[],
  track: ReturnType<typeof trackOf>,
  settings: FixSettings,
  at: Instant,
): Position | undefined {
  const known = list.filter((o) => o.dr).sort((a, b) => b.instant.compare(a.instant))[0];
  if (!known?.dr) return undefined;
  return carriedTo(known.dr, runBetween(track, settings, known.instant, at));
}

function priorOf(settings: FixSettings, dr: Position | undefined): PriorKernel | undefined {
  if (!settings.prior) return undefined;
  const place = settings.prior.position ?? dr;
  if (!place)
    throw new OutOfRangeError(
      'a DR cannot count as an observation when there is none: { dr: position(…) }',
    );
  const weight = settings.prior.sigmaArcmin ** -2;
  return {
    latDeg: place.latDeg,
    lonDeg: place.lonDeg,
    information: [
      [weight, 0],
      [0, weight],
    ],
  };
}

function withoutDuplicates(
  list: readonly AltitudeObservation[],
  flags: FixFlag[],
): AltitudeObservation[] {
  const kept: AltitudeObservation[] = [];
  for (const o of list) {
    const twin = kept.find(
      (k) =>
        k.body === o.body &&
        Math.abs(k.instant.minus(o.instant).seconds) < 0.5 &&
        Math.abs(k.observed.minus(o.observed).arcminutes) < 0.005,
    );
    if (!twin) kept.push(o);
    else
      flags.push(
        new FixFlag(
          'duplicate',
          `${label(o)} is there twice with the same altitude; it is counted once.`,
        ),
      );
  }
  return kept;
}

const NEAR_RIVAL_MILES = 1000;

function placeFlags(s: Solution, rivals: readonly Solution[], dr: Position | undefined): FixFlag[] {
  const flags: FixFlag[] = [];
  const [other] = rivals;
  const r = other && rival(s, other);
  // With a DR, a crossing in another ocean needs no word; it stays in `rivals`.
  if (r && (!dr || r.distance.nauticalMiles < NEAR_RIVAL_MILES)) {
    const why = dr
      ? 'the one nearer the DR is taken'
      : 'no DR is given, so the better fitting is taken';
    flags.push(
      new FixFlag(
        'two crossings',
        `The circles cross in two places: also at ${r.position.toString()}, ${r.distance.nauticalMiles.toFixed(0)} nm off; ${why}.`,
      ),
    );
  }
  if (dr) {
    const o = offset(dr.latDeg, dr.lonDeg, s.latDeg, s.lonDeg);
    const miles = Math.hypot(o.northArcmin, o.eastArcmin);
    if (miles > FAR_ARCMIN) {
      const bearing = formatBearing((Math.atan2(o.eastArcmin, o.northArcmin) * 180) / Math.PI);
      flags.push(
        new FixFlag(
          'far from DR',
          `The fix lies ${miles.toFixed(0)} nm ${bearing} from the DR: check date, hour and bodies.`,
        ),
      );
    }
  }
  return flags;
}
