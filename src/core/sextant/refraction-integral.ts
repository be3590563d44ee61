/**
 * Refraction by integration through a standard atmosphere: temperature falls by 6.5 K/km to 11 km, then stays;
 * dry air in hydrostatic balance. Method: L. H. Auer and E. M. Standish, Astronomical refraction: computational
 * method for all zenith angles, Astron. J. 119 (2000) 2472; atmosphere and constants: C. Y. Hohenkerk and
 * A. T. Sinclair, NAO Technical Note 63 (1985), both from memory.
 */
const EARTH_RADIUS_M = 6378120;
const TROPOPAUSE_M = 11000;
const TOP_M = 80000;
const GAS_CONSTANT = 8314.32;
const DRY_AIR_KG_PER_KMOL = 28.9644;
const GRAVITY = 9.784;
const STANDARD_LAPSE = 0.0065;
const ZERO_C = 273.15;
/** n − 1 is this times pressure (hPa) over temperature (K), yellow light, 0.574 µm. */
const REFRACTIVITY =
  ((287.6155 + 1.62887 / 0.574 ** 2 + 0.0136 / 0.574 ** 4) * 1e-6 * ZERO_C) / 1013.25;

/** Gauss–Legendre nodes and weights on (0, 1), found once by Newton's method on the Legendre polynomial. */
function gaussLegendre(count: number): readonly (readonly [number, number])[] {
  return Array.from({ length: count }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 8; step++) {
      let [p0, p1] = [1, x];
      for (let k = 2; k <= count; k++) [p0, p1] = [p1, ((2 * k - 1) * x * p1 - (k - 1) * p0) / k];
      slope = (count * (x * p1 - p0)) / (x * x - 1);
      x -= p1 / slope;
    }
    return [(1 + x) / 2, 1 / ((1 - x * x) * slope * slope)] as const;
  });
}
const NODES = gaussLegendre(16);

/** Refractive index and its gradient (per metre) at a height, in one of the two layers. */
interface Layer {
  index(heightM: number): number;
  gradient(heightM: number): number;
}

function troposphere(surfaceK: number, pressureHpa: number, lapse: number): Layer {
  const power = (GRAVITY * DRY_AIR_KG_PER_KMOL) / (GAS_CONSTANT * lapse) - 1;
  const refractivity = (REFRACTIVITY * pressureHpa) / surfaceK;
  const ratio = (h: number) => 1 - (lapse * h) / surfaceK;
  return {
    index: (h) => 1 + refractivity * ratio(h) ** power,
    gradient: (h) => ((-power * lapse) / surfaceK) * refractivity * ratio(h) ** (power - 1),
  };
}

function stratosphere(below: Layer, surfaceK: number, lapse: number): Layer {
  const temperatureK = surfaceK - lapse * TROPOPAUSE_M;
  const scale = (GRAVITY * DRY_AIR_KG_PER_KMOL) / (GAS_CONSTANT * temperatureK);
  const base = below.index(TROPOPAUSE_M) - 1;
  const excess = (h: number) => base * Math.exp(-scale * (h - TROPOPAUSE_M));
  return { index: (h) => 1 + excess(h), gradient: (h) => -scale * excess(h) };
}

/** Height at which n r equals `target`, by Newton's method from `startM`. */
function heightWhere(layer: Layer, target: number, startM: number): number {
  let h = startM;
  for (let i = 0; i < 12; i++) {
    const r = EARTH_RADIUS_M + h;
    const step = (layer.index(h) * r - target) / (layer.index(h) + r * layer.gradient(h));
    h -= step;
    if (Math.abs(step) < 1e-4) break;
  }
  return h;
}

/** Bending, in radians, of the ray while its zenith distance goes from `fromRad` to `toRad` in one layer. */
function bending(
  layer: Layer,
  invariant: number,
  fromRad: number,
  toRad: number,
  h0: number,
): number {
  let sum = 0;
  for (const [x, weight] of NODES) {
    const psi = fromRad + (toRad - fromRad) * x;
    const h = heightWhere(layer, invariant / Math.sin(psi), h0);
    const slope = (EARTH_RADIUS_M + h) * layer.gradient(h);
    sum += (weight * slope) / (layer.index(h) + slope);
  }
  return -sum * (toRad - fromRad);
}

/**
 * Refraction at an apparent altitude, by integration along the ray.
 * @param altDeg apparent altitude, −1° to 90°
 * @param temperatureC air temperature at the observer
 * @param pressureHpa air pressure at the observer, hPa
 * @param lapseKPerM fall of temperature with height in the lowest 11 km, K per metre, more than 0
 * @returns minutes of arc, 0 or more, to be subtracted from the apparent altitude; NaN outside the range.
 * Error: under 0.01′ as an integral; what the real air does near the horizon is another matter, see
 * `refractionSigmaKernel`.
 */
export function refractionIntegralKernel(
  altDeg: number,
  temperatureC: number,
  pressureHpa: number,
  lapseKPerM: number = STANDARD_LAPSE,
): number {
  if (!(altDeg >= -1 && altDeg <= 90)) return NaN;
  if (altDeg === 90) return 0;
  const surfaceK = temperatureC + ZERO_C;
  const lower = troposphere(surfaceK, pressureHpa, lapseKPerM);
  const upper = stratosphere(lower, surfaceK, lapseKPerM);
  const zenithRad = ((90 - altDeg) * Math.PI) / 180;
  const invariant = lower.index(0) * EARTH_RADIUS_M * Math.sin(zenithRad);
  const psiAt = (layer: Layer, h: number) =>
    Math.asin(invariant / (layer.index(h) * (EARTH_RADIUS_M + h)));
  const tropopause = psiAt(lower, TROPOPAUSE_M);
  const radians =
    bending(lower, invariant, tropopause, zenithRad, 0) +
    bending(upper, invariant, psiAt(upper, TOP_M), tropopause, TROPOPAUSE_M);
  return (radians * 180 * 60) / Math.PI;
}
