import { dipShortKernel, horizonDistanceKernel } from '../../core/sextant/index.js';

/** How the sea and the sky can be told apart. */
export interface BenchLight {
  /** Light of the sky: 1 day, 0 night. */
  readonly day: number;
  /** How sharply the edge of the sea stands out: 1 clear day, 0 not to be seen. */
  readonly edge: number;
  /** Dip of the edge that is seen, minutes of arc: greater than that of the horizon when haze hides the horizon. */
  readonly edgeDipArcmin: number;
  /** Whether the edge seen is one that the haze makes, nearer than the horizon. */
  readonly isFalseHorizon: boolean;
}

const NAUTICAL_END_DEG = -12;
/** From memory: about this deep stands the Sun when the sky no longer loses light that the eye notices. */
const DARK_DEG = -14;
/** Contrast that the eye just sees, which defines the visibility (Koschmieder's law; 2 %, from memory). */
const LEAST_CONTRAST = 0.02;
/** How an edge looks that the haze itself makes: there, but soft. A choice of drawing. */
const FALSE_EDGE = 0.16;

const share = (value: number, none: number, full: number) =>
  Math.min(1, Math.max(0, (value - none) / (full - none)));

/**
 * The light on the bench.
 * @param sunAltDeg altitude of the Sun's centre
 * @param visibilityM how far dark things are seen, metres; Infinity for clear air
 */
export function benchLight(sunAltDeg: number, eyeHeightM: number, visibilityM: number): BenchLight {
  const horizonM = horizonDistanceKernel(eyeHeightM);
  const contrast = LEAST_CONTRAST ** (horizonM / visibilityM);
  const isFalse = contrast < LEAST_CONTRAST;
  const dusk = 0.06 + 0.94 * share(sunAltDeg, NAUTICAL_END_DEG, -6);
  return {
    day: share(sunAltDeg, DARK_DEG, 0),
    edge: (isFalse ? FALSE_EDGE : contrast) * (sunAltDeg < NAUTICAL_END_DEG ? 0.06 : dusk),
    edgeDipArcmin: isFalse ? dipShortKernel(eyeHeightM, visibilityM) : NaN,
    isFalseHorizon: isFalse,
  };
}

/**
 * The faintest star that shows in a telescope of about 3½ times. By the naked eye, first magnitude comes about when the
 * Sun is 6° down and the sixth at the end of astronomical twilight, nearly in proportion (from memory); an aperture
 * of 40 mm gains 2½ magnitudes on the sky around it, less in a bright one (from memory).
 */
export function faintestMagnitude(sunAltDeg: number): number {
  const eye = sunAltDeg > 0 ? -4.4 : Math.min(6, -4.4 + (-sunAltDeg * 5.4) / 6);
  return eye + (sunAltDeg > 0 ? 0.5 : 2);
}
