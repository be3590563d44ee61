import { refractionIntegralKernel } from './refraction-integral.js';

/** How refraction is worked: the almanac's formula, the integral, or the formula down to 10° and the integral below. */
export type RefractionModel = 'formula' | 'integral' | 'formula above 10°';

/** Below this apparent altitude the integral takes the formula's place, degrees. */
export const LOW_ALTITUDE_DEG = 10;
/** Air that the almanac's tables stand for. */
export const STANDARD_TEMPERATURE_C = 10;
/** Pressure of the almanac’s refraction tables, hPa (The Nautical Almanac, table A4). */
export const STANDARD_PRESSURE_HPA = 1010;

/**
 * Refraction by the almanac's formula.
 * @param altDeg apparent altitude, −1° to 90°
 * @param temperatureC air temperature; @param pressureHpa air pressure, hPa
 * @returns minutes of arc to be subtracted; NaN outside the range.
 * Source: Nautical Almanac, sight reduction procedures (2004 and later): R₀ = 0.0167°/tan(H + 7.32/(H + 4.32)),
 * 0.0167° being 1′; R = f R₀, f = 0.28 P/(T + 273).
 * Error there: up to 0.10′ more than an exact integral through a standard atmosphere, worst near 10°.
 */
export function refractionFormulaKernel(
  altDeg: number,
  temperatureC: number,
  pressureHpa: number,
): number {
  if (!(altDeg >= -1 && altDeg <= 90)) return NaN;
  const argument = altDeg + 7.32 / (altDeg + 4.32);
  const density = (0.28 * pressureHpa) / (temperatureC + 273);
  return density / Math.tan((argument * Math.PI) / 180);
}

/**
 * Refraction in minutes of arc, to be subtracted, by the model asked for.
 * @param altDeg apparent altitude, −1° to 90°; NaN outside
 * @param temperatureC air temperature at the observer
 * @param pressureHpa air pressure at the observer, hPa
 * Source and error: as for the two kernels it chooses from.
 */
export function refractionKernel(
  altDeg: number,
  temperatureC: number,
  pressureHpa: number,
  model: RefractionModel,
): number {
  return usesIntegral(altDeg, model)
    ? refractionIntegralKernel(altDeg, temperatureC, pressureHpa)
    : refractionFormulaKernel(altDeg, temperatureC, pressureHpa);
}

/** Whether the model takes the integral at this apparent altitude. */
export function usesIntegral(altDeg: number, model: RefractionModel): boolean {
  return model === 'integral' || (model === 'formula above 10°' && altDeg < LOW_ALTITUDE_DEG);
}

/**
 * Standard deviation of refraction, minutes of arc: what the air was not measured to be, and what the air near
 * the horizon does on its own.
 * - temperature to 2 K and pressure to 2 hPa when given, to 10 K and 10 hPa when assumed;
 * - 5′ exp(−h/1°): the shape follows the change of the integral between lapse rates of 3 and 9.8 K/km, three
 *   times as large; 0.05′ for the formula itself.
 * Source: common practice, no source; the shape is checked against the integral.
 */
export function refractionSigmaKernel(
  altDeg: number,
  refractionArcmin: number,
  temperatureGiven: boolean,
  pressureGiven: boolean,
): number {
  const relative = Math.hypot(
    (temperatureGiven ? 2 : 10) / 283,
    (pressureGiven ? 2 : 10) / STANDARD_PRESSURE_HPA,
  );
  const nearHorizon = 5 * Math.exp(-Math.max(altDeg, 0));
  return Math.hypot(relative * refractionArcmin, nearHorizon, 0.05);
}
