import * as Engine from 'astronomy-engine';
import { J2000_JD } from '../units/time-scales.js';
import { nutationSeries } from './nutation.js';
import type { EarthState, SolarSystem } from './solar-system.js';

const AU_KM = Engine.KM_PER_AU;
const DAYS_PER_CENTURY = 36525;

/** A time for astronomy-engine with TT as given; its own ΔT is not used. */
export function engineTime(tt: number, ut1 = tt): Engine.AstroTime {
  const time = new Engine.AstroTime(ut1 - J2000_JD);
  time.tt = tt - J2000_JD;
  return time;
}

/**
 * The solar system of astronomy-engine (truncated VSOP87, ELP/MPP02 after Montenbruck & Pfleger), for any year and without data.
 * Against DE421 in 1990–2050: Sun 0.04′, Moon 0.06′, planets up to 0.34′.
 */
export const engineSolarSystem: SolarSystem = {
  label: 'astronomy-engine',
  firstJd: -Infinity,
  lastJd: Infinity,
  earthState(tt: number, state: EarthState): void {
    const time = engineTime(tt);
    const sun = Engine.BaryState(Engine.Body.Sun, time);
    const earth = Engine.BaryState(Engine.Body.Earth, time);
    set(state.sun, sun.x, sun.y, sun.z);
    set(state.sunRate, sun.vx, sun.vy, sun.vz);
    set(state.earth, earth.x, earth.y, earth.z);
    set(state.earthRate, earth.vx, earth.vy, earth.vz);
    nutationSeries((tt - J2000_JD) / DAYS_PER_CENTURY, state.nutation);
  },
  planet(name, tt, out) {
    const v = Engine.HelioVector(Engine.Body[name], engineTime(tt));
    set(out, v.x, v.y, v.z);
  },
  moon(tt, out) {
    const v = Engine.GeoMoon(engineTime(tt));
    set(out, v.x * AU_KM, v.y * AU_KM, v.z * AU_KM);
  },
};

function set(out: Float64Array, x: number, y: number, z: number): void {
  out[0] = x;
  out[1] = y;
  out[2] = z;
}
