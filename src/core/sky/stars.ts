import catalogue from '../../../data/nav-stars.json';
import type { CatalogueBinary, CatalogueStar } from '../../../data/nav-stars.json';
import { starNames, type StarName } from './body-names.js';
import { finite } from '../units/errors.js';
import { orbitOffset } from './binary-orbit.js';

const RADIANS_PER_MAS = Math.PI / 648000000;
const DAYS_PER_YEAR = 365.25;
/** km/s in one AU a year. */
const KM_S_PER_AU_YR = 4.740470464;

/** A catalogue row: ICRS place in degrees at an epoch; motions in mas a year, RA times cos dec; parallax in mas. */
export interface StarFields {
  readonly name: string;
  /** Right ascension, ICRS, degrees. */
  readonly raDeg: number;
  /** Declination, ICRS, degrees, north positive. */
  readonly decDeg: number;
  /** Julian date TT; J1991.25 unless told. */
  readonly epochJd?: number;
  /** V magnitude. */
  readonly vMag?: number;
  /** Motion in right ascension times cos dec, mas a year. */
  readonly pmRaCosDecMasPerYr: number;
  /** Motion in declination, mas a year. */
  readonly pmDecMasPerYr: number;
  /** Parallax, mas. */
  readonly parallaxMas: number;
  /** Away from the Sun positive, km/s. */
  readonly radialVelocityKmS: number;
}

/** A star ready for computing: place at the catalogue's epoch as a vector, its change a year, parallax. */
export interface StarMotion {
  readonly name: string;
  readonly magnitude?: number;
  /** Julian date TT of the place. */
  readonly epochJd: number;
  /** Unit vector, ICRS, at the epoch. */
  readonly place: readonly [number, number, number];
  /** Change of the vector a year; along the line of sight too, from the radial velocity. */
  readonly ratePerYear: readonly [number, number, number];
  readonly parallaxRad: number;
  readonly binary?: CatalogueBinary;
}

function catalogueMotion(star: CatalogueStar): StarMotion {
  const binary = catalogue.binaries.find((b) => b.hip === star.hip);
  if (!binary) return starFrom(star);
  // Of a binary, the fields given are those of its barycentre.
  return { ...starFrom({ ...star, ...definedPart(binary) }), binary };
}

/** Any star of a catalogue, prepared for `starKernel`. @throws OutOfRangeError when a figure is not finite */
export function starFrom(row: StarFields): StarMotion {
  for (const [key, value] of Object.entries(row))
    if (typeof value === 'number') finite(value, `${key} of ${row.name}`);
  const [ra, dec] = [(row.raDeg * Math.PI) / 180, (row.decDeg * Math.PI) / 180];
  const [cr, sr, cd, sd] = [Math.cos(ra), Math.sin(ra), Math.cos(dec), Math.sin(dec)];
  const east = row.pmRaCosDecMasPerYr * RADIANS_PER_MAS;
  const north = row.pmDecMasPerYr * RADIANS_PER_MAS;
  const parallaxRad = row.parallaxMas * RADIANS_PER_MAS;
  const away = (row.radialVelocityKmS / KM_S_PER_AU_YR) * parallaxRad;
  return {
    name: row.name,
    ...(row.vMag === undefined ? {} : { magnitude: row.vMag }),
    epochJd: row.epochJd ?? catalogue.epochJdTT,
    place: [cd * cr, cd * sr, sd],
    ratePerYear: [
      -east * sr - north * sd * cr + away * cd * cr,
      east * cr - north * sd * sr + away * cd * sr,
      north * cd + away * sd,
    ],
    parallaxRad,
  };
}

function definedPart(binary: CatalogueBinary | undefined): Partial<CatalogueStar> {
  if (binary?.raDeg === undefined) return {};
  const { raDeg, decDeg, pmRaCosDecMasPerYr, pmDecMasPerYr, parallaxMas, radialVelocityKmS } =
    binary;
  return {
    raDeg,
    decDeg,
    pmRaCosDecMasPerYr,
    pmDecMasPerYr,
    parallaxMas,
    radialVelocityKmS,
  } as Partial<CatalogueStar>;
}

const motions = new Map<StarName, StarMotion>();

/** The star's motion, prepared once. */
export function starMotion(name: StarName): StarMotion {
  const known = motions.get(name);
  if (known) return known;
  const star = catalogue.stars.find((s) => s.name === name);
  if (!star) throw new RangeError(`no star ${name}; there are ${starNames.join(', ')}`);
  const motion = catalogueMotion(star);
  motions.set(name, motion);
  return motion;
}

/** Catalogue and epoch, as cited in a working. */
export const starSource = `Hipparcos, van Leeuwen 2007 (CDS I/311)`;

/**
 * Direction of the star from the solar-system barycentre at that time, ICRS, not of unit length; binaries at the
 * centre of their light.
 * @param tt Julian date
 */
export function starVector(star: StarMotion, tt: number, out: Float64Array): void {
  const years = (tt - star.epochJd) / DAYS_PER_YEAR;
  for (let i = 0; i < 3; i++)
    out[i] = (star.place[i as 0] as number) + years * (star.ratePerYear[i as 0] as number);
  if (star.binary) orbitOffset(star.binary, tt, out);
}
