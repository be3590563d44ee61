/** Bodies of the solar system that a sextant is used on. */
export const solarSystemNames = Object.freeze([
  'Sun',
  'Moon',
  'Venus',
  'Mars',
  'Jupiter',
  'Saturn',
] as const);

/** The 57 selected stars of the almanac in their order (by SHA, falling), and Polaris. */
export const starNames = Object.freeze([
  'Alpheratz',
  'Ankaa',
  'Schedar',
  'Diphda',
  'Achernar',
  'Hamal',
  'Acamar',
  'Menkar',
  'Mirfak',
  'Aldebaran',
  'Rigel',
  'Capella',
  'Bellatrix',
  'Elnath',
  'Alnilam',
  'Betelgeuse',
  'Canopus',
  'Sirius',
  'Adhara',
  'Procyon',
  'Pollux',
  'Avior',
  'Suhail',
  'Miaplacidus',
  'Alphard',
  'Regulus',
  'Dubhe',
  'Denebola',
  'Gienah',
  'Acrux',
  'Gacrux',
  'Alioth',
  'Spica',
  'Alkaid',
  'Hadar',
  'Menkent',
  'Arcturus',
  'Rigil Kentaurus',
  'Zubenelgenubi',
  'Kochab',
  'Alphecca',
  'Antares',
  'Atria',
  'Sabik',
  'Shaula',
  'Rasalhague',
  'Eltanin',
  'Kaus Australis',
  'Vega',
  'Nunki',
  'Altair',
  'Peacock',
  'Deneb',
  'Enif',
  "Al Na'ir",
  'Fomalhaut',
  'Markab',
  'Polaris',
] as const);

/** Sun, Moon and the planets that are used. */
export type SolarSystemName = (typeof solarSystemNames)[number];
/** The navigational stars and Polaris. */
export type StarName = (typeof starNames)[number];
/** Every body with a place here. */
export type BodyName = SolarSystemName | StarName;

/** Every body known here: Sun, Moon, planets, then the stars. */
export const bodyNames: readonly BodyName[] = Object.freeze([...solarSystemNames, ...starNames]);
const SOLAR_SYSTEM: ReadonlySet<string> = new Set(solarSystemNames);
const ALL: ReadonlySet<string> = new Set(bodyNames);

/** Whether a text is the exact name of a body. */
export const isBodyName = (name: string): name is BodyName => ALL.has(name);
/** Whether a body is the Sun, the Moon or a planet. */
export const isSolarSystem = (name: BodyName): name is SolarSystemName => SOLAR_SYSTEM.has(name);
