import { ChebyshevSeries } from './chebyshev-series.js';
import { readHeader, type EphemerisSource } from './ephemeris-format.js';
import type { EarthState, PlanetName, SolarSystem } from './solar-system.js';

/** Days at both ends that light time and differences may reach into (light from Saturn takes 0.06 day). */
const MARGIN_DAYS = 0.25;

/** The solar system from a file of Chebyshev series. @throws RangeError when the bytes are not such a file. */
export function seriesSolarSystem(source: EphemerisSource): SolarSystem {
  const { header, dataOffset } = readHeader(source);
  const series = new Map(
    header.bodies.map((b) => [b.name, new ChebyshevSeries(source, b, dataOffset)] as const),
  );
  const of = (name: string): ChebyshevSeries => {
    const found = series.get(name);
    if (!found) throw new RangeError(`${source.name} has no series for ${name}`);
    return found;
  };
  const planets: Record<PlanetName, ChebyshevSeries> = {
    Venus: of('Venus'),
    Mars: of('Mars'),
    Jupiter: of('Jupiter'),
    Saturn: of('Saturn'),
  };
  const [sun, emb, moon, nutation] = [of('Sun'), of('EMB'), of('Moon'), of('Nutation')];
  const moonShare = 1 / (header.auKm * (1 + header.earthMoonMassRatio));
  const m = new Float64Array(3);
  const mRate = new Float64Array(3);
  const all = [...series.values()];
  return {
    label: `JPL DE421 (${source.name})`,
    firstJd: Math.max(...all.map((s) => s.firstJd)) + MARGIN_DAYS,
    lastJd: Math.min(...all.map((s) => s.lastJd)) - MARGIN_DAYS,
    earthState(tt: number, state: EarthState): void {
      sun.valueAndRate(tt, state.sun, state.sunRate);
      emb.valueAndRate(tt, state.earth, state.earthRate);
      moon.valueAndRate(tt, m, mRate);
      nutation.value(tt, state.nutation);
      for (let i = 0; i < 3; i++) {
        state.earth[i] =
          (state.earth[i] as number) + (state.sun[i] as number) - (m[i] as number) * moonShare;
        state.earthRate[i] =
          (state.earthRate[i] as number) +
          (state.sunRate[i] as number) -
          (mRate[i] as number) * moonShare;
      }
    },
    planet: (name, tt, out) => planets[name].value(tt, out),
    moon: (tt, out) => moon.value(tt, out),
  };
}
