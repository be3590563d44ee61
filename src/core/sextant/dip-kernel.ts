/** Minutes of arc for the square root of one metre: 0.0293° as the almanac prints it. */
const ARCMIN_PER_ROOT_METRE = 0.0293 * 60;
const METRES_PER_NAUTICAL_MILE = 1852;
const METRES_PER_FOOT = 0.3048;
/** 8268: nautical miles over which the sea curves away by the slope of one, refraction included. */
const CURVATURE_MILES = 8268;
const FEET_PER_NAUTICAL_MILE_AS_TABULATED = 6076.1;

/**
 * Dip of the sea horizon, refraction of the horizon included.
 * @param eyeHeightM height of eye above the water, metres, 0 or more
 * @returns minutes of arc, 0 or more; to be subtracted from the altitude. NaN for a negative height.
 * Source: Nautical Almanac, sight reduction procedures, D = 0.0293° √h (1.758′ √h); Bowditch.
 * Error there: the almanac's table is made with 1.76′, up to 0.07′ more at 32 m.
 */
export function dipKernel(eyeHeightM: number): number {
  return ARCMIN_PER_ROOT_METRE * Math.sqrt(eyeHeightM);
}

/**
 * Dip of a waterline nearer than the horizon: a beach, another vessel's waterline.
 * @param eyeHeightM height of eye above that water, metres, 0 or more
 * @param distanceM distance of the waterline, metres, more than 0
 * @returns minutes of arc to be subtracted; meaningful up to {@link horizonDistanceKernel}, where it equals
 * the dip of the sea horizon to 0.02′.
 * Source: Bowditch (NGA Pub. No. 9) vol. II, explanation of Table 14, formula from memory:
 * tan D = h/(6076.1 d) + d/8268, h in feet, d in nautical miles.
 */
export function dipShortKernel(eyeHeightM: number, distanceM: number): number {
  const miles = distanceM / METRES_PER_NAUTICAL_MILE;
  const feet = eyeHeightM / METRES_PER_FOOT;
  const slope = feet / (FEET_PER_NAUTICAL_MILE_AS_TABULATED * miles) + miles / CURVATURE_MILES;
  return (Math.atan(slope) * 180 * 60) / Math.PI;
}

/**
 * Distance in metres at which the waterline formula has its least dip: the sea horizon itself. Source: as for `dipShortKernel`.
 * @param eyeHeightM height of eye above the water, metres, 0 or more; NaN below
 */
export function horizonDistanceKernel(eyeHeightM: number): number {
  const feet = eyeHeightM / METRES_PER_FOOT;
  return (
    Math.sqrt((feet * CURVATURE_MILES) / FEET_PER_NAUTICAL_MILE_AS_TABULATED) *
    METRES_PER_NAUTICAL_MILE
  );
}
