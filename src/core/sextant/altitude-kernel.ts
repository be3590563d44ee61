import { augmentationKernel, earthFigureKernel, parallaxSphereKernel } from './parallax-kernel.js';
import { dipKernel, dipShortKernel } from './dip-kernel.js';
import { refractionKernel, type RefractionModel } from './refraction-kernel.js';

/** What the altitude was measured from: the sea horizon, a shore nearer than it, an artificial horizon (the angle doubled), a bubble. */
export type HorizonKind = 'natural' | 'short' | 'artificial' | 'bubble';

/** A reading and all that its corrections need, as plain numbers. */
export interface AltitudeInput {
  /** What the arc shows, 0° to 150°, a little less than 0° off the arc. */
  readingDeg: number;
  /** Index error, on the arc positive (the sextant reads too much). */
  indexErrorArcmin: number;
  /** Correction of the certificate at this reading, to be added. */
  instrumentArcmin: number;
  horizon: HorizonKind;
  /** Height of eye above the water, metres; not used with an artificial or bubble horizon. */
  eyeHeightM: number;
  /** Distance of the waterline, metres, with the short horizon only. */
  distanceM: number;
  /** Air temperature at the observer. */
  temperatureC: number;
  /** Air pressure at the observer. */
  pressureHpa: number;
  refractionModel: RefractionModel;
  /** Limb observed: −1 lower, 0 centre, +1 upper. */
  limb: -1 | 0 | 1;
  /** Geocentric semi-diameter and equatorial horizontal parallax, minutes of arc. */
  sdArcmin: number;
  /** Equatorial horizontal parallax. */
  hpArcmin: number;
  /** Whether the body is the Moon: augmentation and the Earth's figure count. */
  moon: boolean;
  /** Latitude and azimuth for the Earth's figure; NaN leaves the figure out. */
  latDeg: number;
  /** True azimuth of the body; NaN leaves the figure of the Earth out. */
  azimuthDeg: number;
  /** Correction from centre of light to centre of disc, to be added. */
  phaseArcmin: number;
}

/** Every correction (signed, to be added, minutes of arc) and the altitudes reached on the way, degrees. */
export interface AltitudeStages {
  indexArcmin: number;
  instrumentArcmin: number;
  /** The angle after index and instrument correction, and after halving where there is an artificial horizon. */
  angleDeg: number;
  dipArcmin: number;
  /** Whether the angle was over 90°: taken from the opposite horizon, so its supplement is the altitude. */
  backSight: boolean;
  /** Apparent altitude of the limb. */
  apparentDeg: number;
  refractionArcmin: number;
  /** Semi-diameter and its augmentation, both with the sign of the limb. */
  sdArcmin: number;
  /** With the sign of the limb. */
  augmentationArcmin: number;
  parallaxArcmin: number;
  figureArcmin: number;
  phaseArcmin: number;
  /** Ho of the centre, as from the Earth’s centre; NaN when the body is more than 1° below the horizon. */
  observedDeg: number;
}

/**
 * All corrections from the reading to the observed altitude, in this order: index, instrument, halving (artificial
 * horizon), dip, supplement (back sight), refraction, semi-diameter, augmentation, parallax, figure of the Earth, phase.
 * @param out written into and returned when given, so that a batch allocates nothing
 * @returns altitudes in degrees, corrections in minutes of arc to be added. Everything from refraction on is NaN
 * when the apparent altitude is under −1°.
 */
export function altitudeStagesKernel(
  input: AltitudeInput,
  out: AltitudeStages = blankStages(),
): AltitudeStages {
  out.indexArcmin = 0 - input.indexErrorArcmin;
  out.instrumentArcmin = input.instrumentArcmin;
  const measured = input.readingDeg + (out.indexArcmin + out.instrumentArcmin) / 60;
  out.angleDeg = input.horizon === 'artificial' ? measured / 2 : measured;
  out.dipArcmin = dipArcmin(input);
  const above = out.angleDeg + out.dipArcmin / 60;
  out.backSight = above > 90;
  out.apparentDeg = out.backSight ? 180 - above : above;
  out.refractionArcmin =
    0 -
    refractionKernel(out.apparentDeg, input.temperatureC, input.pressureHpa, input.refractionModel);
  return centreStages(input, out);
}

/** The stages after refraction: from the limb seen at the surface to the centre seen from the Earth's centre. */
function centreStages(input: AltitudeInput, out: AltitudeStages): AltitudeStages {
  const limbDeg = out.apparentDeg + out.refractionArcmin / 60;
  out.sdArcmin = 0 - input.limb * input.sdArcmin;
  const nearCentre = limbDeg + out.sdArcmin / 60;
  out.augmentationArcmin =
    input.moon && input.limb !== 0
      ? 0 - input.limb * augmentationKernel(nearCentre, input.sdArcmin, input.hpArcmin)
      : 0;
  const centreDeg = nearCentre + out.augmentationArcmin / 60;
  out.parallaxArcmin = parallaxSphereKernel(centreDeg, input.hpArcmin);
  const figure = input.moon && !Number.isNaN(input.latDeg) && !Number.isNaN(input.azimuthDeg);
  out.figureArcmin = figure
    ? earthFigureKernel(centreDeg, input.hpArcmin, input.latDeg, input.azimuthDeg)
    : 0;
  out.phaseArcmin = input.phaseArcmin;
  out.observedDeg = centreDeg + (out.parallaxArcmin + out.figureArcmin + out.phaseArcmin) / 60;
  return out;
}

/** Dip to be added (negative or 0), minutes of arc, for any kind of horizon. */
function dipArcmin(input: AltitudeInput): number {
  switch (input.horizon) {
    case 'natural':
      return 0 - dipKernel(input.eyeHeightM);
    case 'short':
      return 0 - dipShortKernel(input.eyeHeightM, input.distanceM);
    default:
      return 0;
  }
}

/** Stages with every figure nought, to be filled by `altitudeStagesKernel`. */
export function blankStages(): AltitudeStages {
  return {
    indexArcmin: 0,
    instrumentArcmin: 0,
    angleDeg: 0,
    dipArcmin: 0,
    backSight: false,
    apparentDeg: 0,
    refractionArcmin: 0,
    sdArcmin: 0,
    augmentationArcmin: 0,
    parallaxArcmin: 0,
    figureArcmin: 0,
    phaseArcmin: 0,
    observedDeg: 0,
  };
}

const scratch = blankStages();

/**
 * Observed altitude (of the centre, as from the Earth's centre) of a reading.
 * @returns degrees; NaN when the body is more than 1° below the horizon or a number put in is NaN.
 */
export function observedAltitudeKernel(input: AltitudeInput): number {
  return altitudeStagesKernel(input, scratch).observedDeg;
}

/**
 * The reading the sextant would show for an observed (true, geocentric) altitude: the inverse of
 * {@link observedAltitudeKernel}, to 1e-9 degrees, for simulated sights and drills.
 * @param observedDeg altitude of the centre as from the Earth's centre, degrees
 * @param input as for the forward kernel; its `readingDeg` is not used
 * @param backSight true to measure from the opposite horizon
 * @returns degrees on the arc; NaN when no reading gives that altitude. Where the refraction model changes at 10°
 * two readings 0.1′ apart may give one altitude: one of them is returned.
 */
export function sextantReadingFor(
  observedDeg: number,
  input: AltitudeInput,
  backSight = false,
): number {
  const stages = blankStages();
  const direction = backSight ? -1 : 1;
  const scale = input.horizon === 'artificial' ? 2 : 1;
  const trial = { ...input, readingDeg: scale * (backSight ? 180 - observedDeg : observedDeg) };
  for (let i = 0; i < 60; i++) {
    altitudeStagesKernel(trial, stages);
    const found = backSight === stages.backSight ? stages.observedDeg : 180 - stages.observedDeg;
    const miss = observedDeg - found;
    if (Math.abs(miss) < 1e-10) return trial.readingDeg;
    if (Number.isNaN(miss)) return NaN;
    trial.readingDeg += direction * scale * miss;
  }
  return NaN;
}
