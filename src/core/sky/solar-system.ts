import type { SolarSystemName } from './body-names.js';

export type PlanetName = Exclude<SolarSystemName, 'Sun' | 'Moon'>;

/**
 * Where the Earth, Sun and Moon are at one moment, ICRS axes, AU and AU a day; the Moon in km from the Earth's centre.
 * Filled in place, so that thousands of places a second cost no memory.
 */
export interface EarthState {
  /** Sun and Earth from the solar-system barycentre. */
  readonly sun: Float64Array;
  readonly sunRate: Float64Array;
  readonly earth: Float64Array;
  readonly earthRate: Float64Array;
  /** Nutation in longitude and obliquity, seconds of arc. */
  readonly nutation: Float64Array;
}

/** A theory or table of the solar system. Times are Julian dates TT (TDB differs by under 2 ms, which moves the Moon 0.001″). */
export interface SolarSystem {
  /** As cited in a working. */
  readonly label: string;
  /** First and last Julian date at which places can be computed. */
  readonly firstJd: number;
  readonly lastJd: number;
  earthState(tt: number, state: EarthState): void;
  /** Planet from the Sun, AU. */
  planet(name: PlanetName, tt: number, out: Float64Array): void;
  /** Moon from the Earth, km. */
  moon(tt: number, out: Float64Array): void;
}

export const newEarthState = (): EarthState => ({
  sun: new Float64Array(3),
  sunRate: new Float64Array(3),
  earth: new Float64Array(3),
  earthRate: new Float64Array(3),
  nutation: new Float64Array(2),
});
