import { altitudeKernel, altitudeRateKernel } from '../line/altitude-kernel.js';
import { label, observationOf, type Observed } from '../line/observation.js';
import { arcHavDeg, cosDeg, sinDeg, wrap180, wrap360 } from '../line/trig.js';
import { Angle } from '../units/angle.js';
import { formatLongitude } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Position } from '../units/position.js';
import { Uncertainty, Working, type Step } from '../working/working.js';
import { altitudeSteps, declinationStep } from './meridian.js';
import { methodStep } from './method-step.js';

const SOURCE = 'E. G. Draper, Lectures in Navigation (1918), and epitomes of the 19th century';

/**
 * Hour angle of a body, 0–180°, by hav t = sec L cosec p cos s sin(s − h), s = (h + L + p)/2; null where the altitude is
 * not reached at that latitude. L is positive, p the polar distance from the elevated pole. Degrees. Source: E. G. Draper, *Lectures in Navigation* (1918).
 */
export function hourAngleFrom(altDeg: number, latDeg: number, polarDeg: number): number | null {
  const s = (altDeg + latDeg + polarDeg) / 2;
  const hav = (cosDeg(s) * sinDeg(s - altDeg)) / (cosDeg(latDeg) * sinDeg(polarDeg));
  return hav >= 0 && hav <= 1 ? arcHavDeg(hav) : null;
}

/** What a time sight may be told: the latitude, and how well it is known. */
export interface TimeSightOptions {
  /** Latitude and rough longitude; the sight's own DR unless told. */
  readonly dr?: Position;
  /** One standard deviation of the latitude; 5′ unless told. */
  readonly latitudeSigma?: Angle;
}

/** A noon latitude carried on by log and compass: common practice, no source. */
const LATITUDE_SIGMA = Angle.arcminutes(5);

/**
 * Longitude from one altitude and a known latitude (time sight). The value is the longitude, east positive; its
 * uncertainty, in minutes of longitude, grows as the body nears the meridian. Source: E. G. Draper, *Lectures in Navigation* (1918), and epitomes of the 19th century.
 * @throws OutOfRangeError without a DR, or where the body never has that altitude at that latitude
 */
export function timeSight(sight: Observed, options: TimeSightOptions = {}): Working<Angle> {
  const o = observationOf(sight);
  const dr = options.dr ?? o.dr;
  if (!dr) throw new OutOfRangeError('a time sight needs a latitude: { dr }');
  const sign = dr.latDeg < 0 ? -1 : 1;
  const latDeg = Math.abs(dr.latDeg);
  const polar = 90 - sign * o.declination.degrees;
  const t = hourAngleFrom(o.observed.degrees, latDeg, polar);
  if (t === null)
    throw new OutOfRangeError(
      `${label(o)} never stands at ${o.observed.toString()} in latitude ${dr.latitude.toString()}: check latitude, altitude and body`,
    );
  const drLha = wrap360(o.gha.degrees + dr.lonDeg);
  const west = drLha < 180;
  const lha = west ? t : 360 - t;
  const longitude = wrap180(lha - o.gha.degrees);
  const { azDeg } = altitudeKernel(dr.latDeg, longitude, o.gha.degrees, o.declination.degrees);
  const perLongitude = Math.max(Math.abs(altitudeRateKernel(dr.latDeg, azDeg, 1)), 1e-6);
  const latitudeSigma = (options.latitudeSigma ?? LATITUDE_SIGMA).arcminutes;
  const offMeridian = Math.min(t, 180 - t);
  const s = (o.observed.degrees + latDeg + polar) / 2;
  const steps: [...Step[], Step<Angle>] = [
    ...altitudeSteps(o),
    declinationStep(o),
    methodStep({
      rule: 'half sum',
      title: 'Half sum and remainder',
      plain: 's = (h + L + p)/2; s − h',
      latex: 's=(h+L+p)/2',
      figures: `(${o.observed.toString()} + ${Angle.degrees(latDeg).toString()} + ${Angle.degrees(polar).toString()})/2 = ${Angle.degrees(s).toString()}; remainder ${Angle.degrees(s - o.observed.degrees).toString()}`,
      result: Angle.degrees(s),
      source: SOURCE,
    }),
    methodStep({
      rule: 'hour angle',
      title: 'Local hour angle',
      plain: 'hav t = sec L cosec p cos s sin(s − h)',
      latex: '\\mathrm{hav}\\,t=\\sec L\\csc p\\cos s\\sin(s-h)',
      figures: `t ${Angle.degrees(t).toString()} ${west ? 'W' : 'E'} of the meridian: LHA ${Angle.degrees(lha).toString()}`,
      result: Angle.degrees(lha),
      source: SOURCE,
    }),
    methodStep({
      rule: 'longitude',
      title: 'Longitude',
      plain: 'longitude = LHA − GHA',
      latex: '\\lambda=\\mathrm{LHA}-\\mathrm{GHA}',
      figures: `${Angle.degrees(lha).toString()} − ${o.gha.toString()}: ${formatLongitude(longitude)}`,
      result: Angle.degrees(longitude),
      written: formatLongitude(longitude),
      source: SOURCE,
    }),
  ];
  return new Working<Angle>(
    `Longitude by time sight: ${label(o)}`,
    steps,
    offMeridian < 15
      ? [
          'The body is within an hour of the meridian: a small error of altitude or latitude makes a large one of longitude.',
        ]
      : [],
    new Uncertainty(
      [
        ...o.causes.map((c) => ({ ...c, sigmaArcmin: c.sigmaArcmin / perLongitude })),
        {
          cause: 'latitude',
          sigmaArcmin: (latitudeSigma * Math.abs(cosDeg(azDeg))) / perLongitude,
        },
        { cause: 'watch', sigmaArcmin: (o.watch?.sigma.seconds ?? 0) / 4 },
      ].filter((c) => c.sigmaArcmin !== 0),
    ),
  );
}
