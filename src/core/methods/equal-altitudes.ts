import { altitudeKernel, altitudeRateKernel } from '../line/altitude-kernel.js';
import { tanDeg, wrap180 } from '../line/trig.js';
import { apparentPlace } from '../sky/apparent-place.js';
import type { BodyName } from '../sky/body-names.js';
import { Angle } from '../units/angle.js';
import { formatCorrection, formatLongitude } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import { Duration } from '../units/scalar.js';
import { Uncertainty, Working } from '../working/working.js';
import { clockText, methodStep } from './method-step.js';

/** Two times of one altitude, before and after transit. */
export interface EqualAltitudes {
  readonly body: BodyName;
  /** When the body stood at one altitude, rising and falling. */
  readonly rising: Instant;
  /** When it stood at the same altitude after transit. */
  readonly falling: Instant;
  /** Latitude and rough longitude. */
  readonly dr: Position;
  /** Speed made good northward between the two, knots; 0 unless told. */
  readonly northKnots?: number;
  /** One standard deviation of either altitude, what is not common to both; 0.7′ unless told. */
  readonly sigma?: Angle;
  /** One standard deviation of the watch. */
  readonly watchSigma?: Duration;
}

const signed = (value: number): string => formatCorrection(value).replace('′', '');

/**
 * Longitude from equal altitudes before and after transit: the middle time, corrected for the change of declination
 * (equation of equal altitudes) and for northing, is that of transit; the body's GHA then is the longitude turned west. Index, dip
 * and refraction drop out, being the same twice. Source: practice of the 19th century, from a text of 1861.
 * @returns the longitude, east positive; uncertainty in minutes of longitude
 * @throws OutOfRangeError when the times are in the wrong order or more than 16 hours apart
 */
export function longitudeByEqualAltitudes(e: EqualAltitudes): Working<Angle> {
  const elapsed = e.falling.minus(e.rising);
  if (!(elapsed.hours > 0 && elapsed.hours < 16))
    throw new OutOfRangeError(
      `the falling altitude must follow the rising one by less than 16 hours; these are ${elapsed.toString()} apart`,
    );
  const middle = e.rising.plus(Duration.seconds(elapsed.seconds / 2));
  const half = elapsed.hours / 2;
  const place = apparentPlace(e.body, middle);
  const hour = (h: number) => apparentPlace(e.body, middle.plus(Duration.hours(h)));
  const decRate = hour(0.5).declination.minus(hour(-0.5).declination).arcseconds;
  const ghaRate = hour(0.5).gha.minus(hour(-0.5).gha).normalized().degrees;
  const northRate = (e.northKnots ?? 0) * 60;
  const t = half * ghaRate;
  const equation = (rate: number) =>
    ((rate * half) / 15) *
    (tanDeg(e.dr.latDeg) / Math.sin((t * Math.PI) / 180) -
      tanDeg(place.declination.degrees) / tanDeg(t));
  // Northing does the same with latitude and declination in each other's place.
  const northing =
    ((northRate * half) / 15) *
    (tanDeg(place.declination.degrees) / Math.sin((t * Math.PI) / 180) -
      tanDeg(e.dr.latDeg) / tanDeg(t));
  const seconds = -equation(decRate) - northing;
  const transit = middle.plus(Duration.seconds(seconds));
  const gha = apparentPlace(e.body, transit).gha;
  const longitude = Angle.degrees(wrap180(-gha.degrees));
  const { azDeg } = altitudeKernel(e.dr.latDeg, 0, t, place.declination.degrees);
  const rate = Math.abs(altitudeRateKernel(e.dr.latDeg, azDeg, 1));
  const sigma = e.sigma ?? Angle.arcminutes(0.7);
  return new Working<Angle>(
    `Longitude by equal altitudes: ${e.body}, ${clockText(e.rising)} and ${clockText(e.falling)}`,
    [
      methodStep({
        rule: 'middle time',
        title: 'Middle time',
        plain: '(t₁ + t₂)/2',
        figures: `${elapsed.toString()} apart`,
        result: middle,
        written: clockText(middle),
      }),
      methodStep({
        rule: 'equation of equal altitudes',
        title: 'Equation of equal altitudes',
        plain:
          'E = (ΔDec per hour × t / 15)(tan L / sin t − tan d / tan t), t half the elapsed time',
        latex:
          'E=\\frac{\\dot\\delta\\,t}{15}\\left(\\frac{\\tan\\varphi}{\\sin t}-\\frac{\\tan\\delta}{\\tan t}\\right)',
        figures: `${signed(decRate)}″ an hour, ${half.toFixed(3)} h: ${signed(equation(decRate))} s${northRate === 0 ? '' : `; northing ${signed(northing)} s`}`,
        result: Duration.seconds(-seconds),
        written: `${signed(-seconds)} s`,
        source: 'practice of the 19th century',
      }),
      methodStep({
        rule: 'transit',
        title: 'Transit',
        plain: 'middle time − E',
        figures: `${clockText(middle)} ${seconds < 0 ? '−' : '+'} ${Math.abs(seconds).toFixed(1)} s`,
        result: transit,
        written: clockText(transit),
      }),
      methodStep({
        rule: 'longitude',
        title: 'Longitude',
        plain: 'longitude = −GHA at transit',
        latex: '\\lambda=-\\mathrm{GHA}',
        figures: `GHA ${gha.toString()}: ${formatLongitude(longitude.degrees)}`,
        result: longitude,
        written: formatLongitude(longitude.degrees),
        source: place.source,
      }),
    ],
    rate < 0.25
      ? [
          'The body is near the meridian or moves along the horizon: its altitude changes slowly and the time of it is weak.',
        ]
      : [],
    new Uncertainty(
      [
        { cause: 'altitudes', sigmaArcmin: sigma.arcminutes / Math.SQRT2 / Math.max(rate, 1e-6) },
        { cause: 'watch', sigmaArcmin: (e.watchSigma?.seconds ?? 0) / 4 },
      ].filter((c) => c.sigmaArcmin !== 0),
    ),
  );
}
