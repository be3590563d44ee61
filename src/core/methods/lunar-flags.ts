/** Slower than this a distance gives no time worth having: common practice, no source. */
const LEAST_RATE = 8;
/** A watch that is out by more than this is more often a slip in the distance: common practice, no source. */
const GREAT_WATCH_ERROR_MINUTES = 30;
/** Under this altitude the air shifts a body by more than tables know: common practice, no source. */
const LEAST_ALTITUDE_DEG = 5;
/** What the Moon is across, roughly, minutes of arc. */
const MOON_ACROSS_ARCMIN = 31;

/** Why a time by a lunar distance must not be taken at face value, in whole sentences; none where nothing is odd. @internal */
export function lunarFlags(found: {
  readonly rateArcminPerHour: number;
  /** The same with what clearing does to it: turns an error of the distance into time. */
  readonly seenRateArcminPerHour: number;
  /** Watch less true time, seconds. */
  readonly watchFastS: number;
  /** True altitude of the lower of the two, degrees. */
  readonly lowestDeg: number;
}): string[] {
  const flags: string[] = [];
  const rate = Math.abs(found.rateArcminPerHour);
  if (rate < LEAST_RATE)
    flags.push(
      `The distance changes by only ${rate.toFixed(1)}′ an hour: this body lies badly for a lunar.`,
    );
  const minutes = found.watchFastS / 60;
  if (Math.abs(minutes) > GREAT_WATCH_ERROR_MINUTES) {
    const worth = (arcmin: number) =>
      `${((60 * arcmin) / Math.abs(found.seenRateArcminPerHour)).toFixed(0)} min`;
    flags.push(
      `By this distance the watch is ${Math.abs(minutes).toFixed(0)} min ${minutes > 0 ? 'fast' : 'slow'}. Unless it stopped or keeps another zone, look for a slip first: ten minutes of arc in the distance are worth ${worth(10)}, the other limb of the Moon ${worth(MOON_ACROSS_ARCMIN)}, a whole degree ${worth(60)}.`,
    );
  }
  if (found.lowestDeg < LEAST_ALTITUDE_DEG)
    flags.push(
      `By this time and place one of the two stands under ${LEAST_ALTITUDE_DEG}°: refraction there may differ by minutes of arc from the tables.`,
    );
  return flags;
}
