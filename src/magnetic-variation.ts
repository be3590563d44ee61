import geomagnetism from 'geomagnetism';
import { eastWest } from './core/methods/compass.js';
import { figure, methodStep } from './core/methods/method-step.js';
import { Angle } from './core/units/angle.js';
import { OutOfRangeError } from './core/units/errors.js';
import type { Instant } from './core/units/instant.js';
import type { Position } from './core/units/position.js';
import { Uncertainty, Working } from './core/working/working.js';

/** Below this horizontal force the compass is weak, below the second it is of no use (nT): zones of the World Magnetic Model. */
const WEAK_NT = 6000;
const BLACKOUT_NT = 2000;

/** First and last day of the models at hand. */
const FIRST = Date.UTC(2014, 11, 16);
const LAST = Date.UTC(2029, 10, 13);

/** Error of the model in declination, 1σ in degrees, for a horizontal force in nT: WMM2025 report (from memory). */
const modelSigmaDeg = (horizontalNt: number): number => Math.hypot(0.26, 5417 / horizontalNt);

const SOURCE = 'World Magnetic Model, NOAA/NCEI and BGS (npm geomagnetism 0.2.0)';

/**
 * Magnetic variation at sea level by the World Magnetic Model: what a compass card without deviation is turned by.
 * @param position where; @param instant when, from 16 December 2014 to 13 November 2029
 * @returns a working whose value is the variation, east positive, −180 to 180°; its uncertainty is the model's: rocks and magnetic storms
 * move the needle by this much, 1σ
 * @throws OutOfRangeError outside the years of the models, and at a magnetic pole, where no compass points
 */
export function magneticVariation(position: Position, instant: Instant): Working<Angle> {
  const at = instant.epochMs;
  if (!(at >= FIRST && at <= LAST))
    throw new OutOfRangeError(
      `The magnetic models here hold from 2014-12-16 to 2029-11-13, not on ${instant.toString().slice(0, 10)}: take the variation from the chart and its yearly change.`,
    );
  const field = geomagnetism.model(new Date(at));
  const { decl, h } = field.point([position.latDeg, position.lonDeg]);
  if (h < BLACKOUT_NT)
    throw new OutOfRangeError(
      `The horizontal force is ${h.toFixed(0)} nT in ${position.toString()}: so near a magnetic pole no compass points, and the variation means nothing.`,
    );
  const variation = Angle.degrees(decl);
  const step = methodStep({
    rule: 'magnetic variation',
    title: 'Magnetic variation',
    plain: 'tan V = east component / north component of the field',
    latex: '\\tan V=\\frac{B_E}{B_N}',
    figures: `${field.name}, ${instant.toString().slice(0, 10)}, ${position.toString()}: ${eastWest(variation)}`,
    inputs: [figure('horizontal force', 'H', h, `${h.toFixed(0)} nT`, 'computed')],
    result: variation,
    written: eastWest(variation),
    errors: [{ cause: 'magnetic model', sigmaArcmin: 60 * modelSigmaDeg(h) }],
    source: SOURCE,
    caution:
      'Local rocks and magnetic storms are in no model; the chart in use and its notes come first.',
  });
  return new Working<Angle>(
    'Magnetic variation',
    [step],
    h < WEAK_NT
      ? [
          `The horizontal force is only ${h.toFixed(0)} nT: the compass is sluggish and unsure here.`,
        ]
      : [],
    new Uncertainty(step.errors, '°'),
  );
}
