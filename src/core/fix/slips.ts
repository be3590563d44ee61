import { altitudeKernel, altitudeRateKernel } from '../line/altitude-kernel.js';
import {
  ghaRateArcminPerS,
  label,
  observationOf,
  type AltitudeObservation,
} from '../line/observation.js';
import { observedAltitude } from '../sextant/observed-altitude.js';
import type { Sight } from '../sextant/sight.js';
import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import { Position } from '../units/position.js';
import type { Length } from '../units/scalar.js';
import { Fix, type FixParts } from './fix-result.js';
import { fix } from './fix.js';
import type { FixOptions } from './fix-options.js';
import { logDeterminant, cholesky, type Matrix } from './matrix.js';
import { slipHypotheses, type SlipHypothesis } from './slip-hypotheses.js';
import { slipRule, slipRules, type SlipKind } from './slip-kinds.js';
import { solve, type Solution } from './solve.js';

/** One explanation of a sight, with how much is to be said for it. */
export interface SlipFinding {
  /** `clean`: nothing but scatter. `unexplained`: wrong, but by nothing on the list. */
  readonly kind: SlipKind | 'clean' | 'unexplained';
  /** The sight it is about; none for `clean` of a round. */
  readonly sight: Sight | null;
  readonly detail: string;
  /** Posterior probability, all findings of a report adding up to 1. */
  readonly probability: number;
  /** Odds against everything else together. */
  readonly odds: number;
  /** What would be left of the residual, were it so; null where that has no meaning. */
  readonly residual: Angle | null;
  /** A whole sentence. */
  readonly text: string;
}

/** Explanations of a sight or a round, the likeliest first. Nothing in the log is changed by it. */
export class SlipReport {
  constructor(
    readonly findings: readonly SlipFinding[],
    /** The residual as it stands, where a place is known. */
    readonly residual: Angle | null,
  ) {
    Object.freeze(this);
  }
  /** The likeliest finding. */
  get first(): SlipFinding {
    return this.findings[0] as SlipFinding;
  }
  /** Whether nothing but scatter is the likeliest. */
  get clean(): boolean {
    return this.first.kind === 'clean';
  }
  /** Probability of a kind of slip, all sights together, 0 to 1. */
  probability(kind: SlipFinding['kind']): number {
    return this.findings.reduce((s, f) => s + (f.kind === kind ? f.probability : 0), 0);
  }
  /** The first explanations, one a line, with their probabilities. */
  toString(): string {
    return this.findings
      .slice(0, 4)
      .filter((f, i) => i === 0 || f.probability > 0.005)
      .map((f) => `${percent(f.probability)} ${f.text}`)
      .join('\n');
  }
  /** The findings as plain data. */
  toJSON(): unknown {
    return {
      residualArcmin: this.residual?.arcminutes ?? null,
      findings: this.findings
        .slice(0, 10)
        .map(({ kind, detail, probability, text }) => ({ kind, detail, probability, text })),
    };
  }
}

/** What the search for slips may be told. */
export interface SlipOptions {
  /** Altitude as the person worked it, when it is not the library's own working of the sight. */
  readonly worked?: Angle;
  /** One standard deviation of the known place in each direction; nothing unless told. */
  readonly placeSigma?: Length;
  /** Probability that a sight has a slip at all, before looking: 0.02 unless told. */
  readonly slipChance?: number;
}

const SLIP_CHANCE = 0.02;
/** Share of the slips that are on no list, and how far such a one may move an altitude either way. */
const UNLISTED = 0.1;
const UNLISTED_RANGE_ARCMIN = 3600;
/** How closely a person's working agrees with one by formula: tables are printed to 0.1′. */
const WORKING_SIGMA_ARCMIN = 0.2;

const percent = (p: number): string =>
  p > 0.9995 ? '> 99.9 %' : p < 0.0005 ? '< 0.1 %' : `${(p * 100).toFixed(1)} %`;
const logNormal = (x: number, sigma: number): number =>
  -0.5 * (x / sigma) ** 2 - Math.log(sigma) - 0.5 * Math.log(2 * Math.PI);

/**
 * Ranks the slips that could explain one sight taken at a known place, by Bayes' rule: prior frequency times how well the
 * residual fits when the slip is undone. Without a slip the residual is normal with the sight's own sigma.
 * @param place where the sight was truly taken
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
  const scored = [
    { kind: 'clean' as const, log: logNormal(asItStands, sigma) + unchanged, h: null },
    ...slipHypotheses(sight, place.lonDeg).map((h) => ({ kind: h.kind, log: log(h), h })),
    {
      kind: 'unexplained' as const,
      log:
        -Math.log(2 * UNLISTED_RANGE_ARCMIN) +
        (options.worked ? -Math.log(2 * UNLISTED_RANGE_ARCMIN) : 0),
      h: null,
    },
  ];
  const findings = posterior(scored, options.slipChance ?? SLIP_CHANCE).map(
    ({ item, probability }) =>
      finding(
        item.kind,
        sight,
        item.h,
        probability,
        item.h
          ? residualAt(mirrored(place, item.h), item.h)
          : item.kind === 'clean'
            ? asItStands
            : null,
      ),
  );
  return new SlipReport(findings, Angle.arcminutes(asItStands));
}

/**
 * Ranks the slips that could explain a round: each sight in turn, each slip undone, the round fixed anew; one slip at
 * most. Needs at least three sights, since two always agree.
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
  const solveWith = (rows: FixParts['rows']) =>
    solve(rows, {
      start: parts.solution,
      prior: parts.prior,
      commonBias: parts.settings.commonBias,
    });
  const scored: Scored[] = [{ kind: 'clean', log: evidence(parts.solution), h: null, sight: null }];
  const each = 1 / parts.rows.length;
  parts.observations.forEach((o, i) => {
    if (!o.sight) return;
    const rest = parts.rows.filter((_, k) => k !== i);
    scored.push({
      kind: 'unexplained',
      log: evidence(solveWith(rest)) - Math.log(2 * UNLISTED_RANGE_ARCMIN),
      h: null,
      sight: o.sight,
      share: each,
    });
    for (const h of slipHypotheses(o.sight, parts.solution.lonDeg)) {
      if (h.mirror || isWorking(h)) continue;
      const rows = parts.rows.map((r, k) =>
        k === i
          ? {
              ...r,
              ghaDeg: h.ghaDeg,
              decDeg: h.decDeg,
              observedDeg: r.observedDeg + h.altitudeArcmin / 60,
            }
          : r,
      );
      scored.push({ kind: h.kind, log: evidence(solveWith(rows)), h, sight: o.sight, share: each });
    }
  });
  const findings = posterior(scored, options.slipChance ?? SLIP_CHANCE).map(
    ({ item, probability }) => finding(item.kind, item.sight ?? null, item.h, probability, null),
  );
  return new SlipReport(findings, null);
}

interface Scored {
  readonly kind: SlipFinding['kind'];
  readonly log: number;
  readonly h: SlipHypothesis | null;
  readonly sight?: Sight | null;
  /** Part of the prior of the kind, where several sights could have it. */
  readonly share?: number;
}

/** Bayes' rule over all explanations; the prior of a kind is shared by its particulars. */
function posterior<T extends Scored>(
  scored: readonly T[],
  chance: number,
): { item: T; probability: number }[] {
  const listed = scored.filter((s) => s.h).map((s) => s.kind as SlipKind);
  const possible = slipRules.filter((r) => listed.includes(r.kind));
  const total = possible.reduce((s, r) => s + r.frequency, 0);
  const particulars = (item: T) =>
    scored.filter((s) => s.kind === item.kind && s.sight === item.sight).length;
  const logs = scored.map((item) => {
    const prior =
      item.kind === 'clean'
        ? 1 - chance
        : item.kind === 'unexplained'
          ? chance * UNLISTED
          : (chance * (1 - UNLISTED) * slipRule(item.kind).frequency) / total / particulars(item);
    return item.log + Math.log(prior * (item.share ?? 1));
  });
  const top = Math.max(...logs);
  const sum = logs.reduce((s, l) => s + Math.exp(l - top), 0);
  return scored
    .map((item, i) => ({ item, probability: Math.exp((logs[i] as number) - top) / sum }))
    .sort((a, b) => b.probability - a.probability);
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

function finding(
  kind: SlipFinding['kind'],
  sight: Sight | null,
  h: SlipHypothesis | null,
  probability: number,
  residualArcmin: number | null,
): SlipFinding {
  const who = sight ? `${label(observationOf(sight))}: ` : '';
  const left = residualArcmin === null ? '' : ` Residual then ${formatCorrection(residualArcmin)}.`;
  const text =
    kind === 'clean'
      ? `${who}nothing but scatter.${left}`
      : kind === 'unexplained'
        ? `${who}wrong by something that is not on the list.`
        : `${who}${slipRule(kind).title} Undone (${h?.detail ?? ''}).${left}`;
  return {
    kind,
    sight,
    detail: h?.detail ?? '',
    probability,
    odds: probability / Math.max(1 - probability, 1e-300),
    residual: residualArcmin === null ? null : Angle.arcminutes(residualArcmin),
    text,
  };
}
