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

export type SolarSystemName = (typeof solarSystemNames)[number];
export type StarName = (typeof starNames)[number];
/** Every body with a place here. */
export type BodyName = SolarSystemName | StarName;

export const bodyNames: readonly BodyName[] = Object.freeze([...solarSystemNames, ...starNames]);
const SOLAR_SYSTEM: ReadonlySet<string> = new Set(solarSystemNames);
const ALL: ReadonlySet<string> = new Set(bodyNames);

export const isBodyName = (name: string): name is BodyName => ALL.has(name);
export const isSolarSystem = (name: BodyName): name is SolarSystemName => SOLAR_SYSTEM.has(name);
