import { altitudeKernel, altitudeRateKernel } from '../line/altitude-kernel.js';
import { localHourAngle } from '../line/computed-altitude.js';
import {
  label,
  observationOf,
  type AltitudeObservation,
  type Observed,
} from '../line/observation.js';
import { acosDeg, atan2Deg, cosDeg, sinDeg } from '../line/trig.js';
import { Angle } from '../units/angle.js';
import { formatCorrection, formatLatitude } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Position } from '../units/position.js';
import { Uncertainty, Working, type ErrorCause, type Step } from '../working/working.js';
import { altitudeFactor, altitudeSteps, declinationStep } from './meridian.js';
import { declinationText, meridianAngleText, methodStep } from './method-step.js';

/** What a latitude may be told: where the vessel is thought to be, and how well. */
export interface LatitudeOptions {
  /** Position whose longitude is used; the sight's own DR unless told. */
  readonly dr?: Position;
  /** One standard deviation of that longitude, minutes of arc of longitude; 10′ unless told. */
  readonly longitudeSigma?: Angle;
}

/** A DR longitude ten minutes out: common practice, no source. */
const LONGITUDE_SIGMA = Angle.arcminutes(10);

/**
 * The latitude (degrees, north positive) at which a body of this declination and hour angle has this altitude, the one nearer to
 * `nearLatDeg`; null where there is none. From sin h = sin φ sin δ + cos φ cos δ cos t = r cos(φ − β). Degrees throughout.
 */
export function latitudeFrom(
  altDeg: number,
  decDeg: number,
  lhaDeg: number,
  nearLatDeg: number,
): number | null {
  const [s, c] = [sinDeg(decDeg), cosDeg(decDeg) * cosDeg(lhaDeg)];
  const r = Math.hypot(s, c);
  const ratio = sinDeg(altDeg) / r;
  if (!(Math.abs(ratio) <= 1)) return null;
  const [beta, gamma] = [atan2Deg(s, c), acosDeg(ratio)];
  const found = [beta + gamma, beta - gamma]
    .map((x) => (x > 180 ? x - 360 : x < -180 ? x + 360 : x))
    .filter((x) => Math.abs(x) <= 90);
  if (found.length === 0) return null;
  return found.reduce((best, x) =>
    Math.abs(x - nearLatDeg) < Math.abs(best - nearLatDeg) ? x : best,
  );
}

/**
 * Causes of error of a latitude from one altitude: the altitude and the longitude, both divided by dh/dφ = cos Zn, which is 1
 * on the meridian.
 */
export function latitudeCauses(
  o: AltitudeObservation,
  latDeg: number,
  dr: Position,
  longitudeSigma: Angle,
): ErrorCause[] {
  const { azDeg } = altitudeKernel(latDeg, dr.lonDeg, o.gha.degrees, o.declination.degrees);
  const perLatitude = Math.max(Math.abs(cosDeg(azDeg)), 1e-6);
  const perLongitude = Math.abs(altitudeRateKernel(latDeg, azDeg, 1));
  return [
    ...o.causes.map((c) => ({ ...c, sigmaArcmin: c.sigmaArcmin / perLatitude })),
    { cause: 'longitude', sigmaArcmin: (longitudeSigma.arcminutes * perLongitude) / perLatitude },
  ].filter((c) => c.sigmaArcmin !== 0);
}

/** Practice keeps the factor to this much time from the meridian (Draper 1918; Bowditch within 30 minutes). */
const FACTOR_LIMIT_MINUTES = 26;

/**
 * Latitude from an altitude near the meridian: the change of altitude a t² by the factor, then the same by the triangle,
 * which is exact at any hour angle; the value is the exact one, north positive, its uncertainty in minutes of latitude. Source: Bowditch,
 * tables 24 and 25; E. G. Draper, *Lectures in Navigation* (1918).
 * @throws OutOfRangeError without a DR, or where the altitude cannot be had at that hour angle
 */
export function exMeridian(sight: Observed, options: LatitudeOptions = {}): Working<Angle> {
  const o = observationOf(sight);
  const dr = options.dr ?? o.dr;
  if (!dr)
    throw new OutOfRangeError('an ex-meridian sight needs a longitude for the hour angle: { dr }');
  const lha = localHourAngle(dr, o.gha).signed();
  const minutes = Math.abs(lha.degrees) * 4;
  const exact = latitudeFrom(o.observed.degrees, o.declination.degrees, lha.degrees, dr.latDeg);
  if (exact === null)
    throw new OutOfRangeError(
      `no latitude gives ${label(o)} an altitude of ${o.observed.toString()} at a meridian angle of ${meridianAngleText(lha)}: check time, longitude and body`,
    );
  const a = altitudeFactor(dr.latDeg, o.declination.degrees);
  const correction = Angle.arcminutes(a * minutes * minutes);
  const meridian = o.observed.plus(correction);
  const zenith = 90 - meridian.degrees;
  const north = o.declination.degrees > dr.latDeg ? -1 : 1;
  const byFactor = o.declination.degrees + north * zenith;
  const flags =
    minutes > FACTOR_LIMIT_MINUTES
      ? [
          `The body is ${minutes.toFixed(0)} minutes from the meridian, more than the ${FACTOR_LIMIT_MINUTES} for which the factor is good; the triangle still is.`,
        ]
      : [];
  const steps: [...Step[], Step<Angle>] = [
    ...altitudeSteps(o),
    declinationStep(o),
    methodStep({
      rule: 'time from the meridian',
      title: 'Time from the meridian',
      plain: 't = LHA / 15, in minutes',
      latex: 't = \\mathrm{LHA}/15',
      figures: `meridian angle ${meridianAngleText(lha)}: ${minutes.toFixed(1)} min`,
      result: lha,
      written: meridianAngleText(lha),
    }),
    methodStep<Angle>({
      rule: 'factor',
      title: 'Change of altitude to the meridian',
      kind: 'correction',
      plain: 'a t², a = 1.9635″ cos Lat cos Dec / sin(Lat ~ Dec)',
      latex: "a t^2,\\ a = 1.9635'' \\cos\\varphi\\cos\\delta/\\sin(\\varphi-\\delta)",
      figures: `a = ${(a * 60).toFixed(2)}″, t² = ${(minutes * minutes).toFixed(0)}: ${formatCorrection(correction.arcminutes)}; then latitude ${formatLatitude(byFactor)}`,
      correction,
      result: meridian,
      source: 'Bowditch tables 24 and 25; E. G. Draper, Lectures in Navigation (1918)',
    }),
    methodStep({
      rule: 'latitude',
      title: 'Latitude by the triangle',
      plain: 'tan β = tan Dec / cos t; cos(Lat − β) = sin Ho sin β / sin Dec',
      latex:
        '\\tan\\beta=\\tan\\delta/\\cos t,\\ \\cos(\\varphi-\\beta)=\\sin H_o\\sin\\beta/\\sin\\delta',
      figures: `Ho ${o.observed.toString()}, Dec ${declinationText(o.declination)}, meridian angle ${meridianAngleText(lha)}: ${formatLatitude(exact)}`,
      result: Angle.degrees(exact),
      written: formatLatitude(exact),
    }),
  ];
  return new Working<Angle>(
    `Latitude by ex-meridian altitude: ${label(o)}`,
    steps,
    flags,
    new Uncertainty(latitudeCauses(o, exact, dr, options.longitudeSigma ?? LONGITUDE_SIGMA)),
  );
}
