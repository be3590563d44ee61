/**
 * How the checks of `npm run accuracy` are put together for readers: a row takes all checks that fit, shows the worst of them, the
 * widest tolerance and all their comparisons. A check that is in none of them gets a row of its own, from its own words.
 */

/** @typedef {{ group: string, subject?: RegExp, quantity?: RegExp, source?: RegExp }} Choice */
/** @typedef {{ what: string, of: Choice, against: string }} Row */

const LIVE = 'skyfield 1.55 with JPL DE421 (run live, and a stored set), pyerfa 2.0.1.5; 1950–2053';
const ALMANAC_STARS =
  'The Nautical Almanac, star table A2, editions to 2003 and from 2004 (from memory)';
const PALPY = 'palpy 1.8.4 refro, stored (the same method programmed by others)';
const DEGREES = 'GHA, declination';
const place = (body, against = 'the same') => ({
  what: `${body}: ${DEGREES}`,
  of: { group: 'Places', subject: new RegExp(`^${body}$`), quantity: /^(GHA|declination)$/ },
  against,
});

/** @type {readonly Row[]} */
export const ROWS = [
  place('Sun', LIVE),
  place('Moon'),
  place('Venus'),
  place('Mars'),
  place('Jupiter', 'the same (centre of the system; the planet within 0.002′)'),
  place('Saturn', 'the same (centre of the system; the planet within 0.003′)'),
  place('55 stars'),
  {
    what: '55 stars without an ephemeris',
    of: { group: 'Places', subject: /no ephemeris/ },
    against: 'skyfield 1.55',
  },
  {
    what: 'Distance, Moon',
    of: { group: 'Places', subject: /^Moon$/, quantity: /^distance$/ },
    against: 'skyfield, pyerfa',
  },
  {
    what: 'Distance, Sun and planets',
    of: { group: 'Places', subject: /^(Sun|Venus|Mars|Jupiter|Saturn)$/, quantity: /^distance$/ },
    against: 'skyfield, pyerfa',
  },
  { what: 'GHA of Aries', of: { group: 'Places', subject: /Aries/ }, against: 'skyfield, pyerfa' },
  {
    what: 'Apparent places in print: Sun, Venus, a star',
    of: {
      group: 'Printed places',
      subject: /^(Sun|Venus|θ Persei) \S+$/,
      quantity: /dec/,
      source: /Meeus/,
    },
    against: 'Meeus, *Astronomical Algorithms*, 2nd ed., ex. 23.a, 25.b, 33.a',
  },
  {
    what: 'Equinoxes and solstices 1996–2005: the Sun’s longitude',
    of: { group: 'Printed places', quantity: /longitude at equinoxes/ },
    against: 'Meeus, table 27.E',
  },
  {
    what: 'Moon, stars in print, also from a place',
    of: { group: 'Printed places', quantity: /dec/, source: /NOVAS/ },
    against: 'USNO NOVAS C 3.1 check-out values (DE405)',
  },
  {
    what: 'Moon, Jupiter, Sun from a place',
    of: { group: 'Printed places', source: /Horizons/ },
    against: 'JPL Horizons (DE431), airless, 1965–2019',
  },
  {
    what: 'Sidereal time',
    of: { group: 'Printed places', subject: /Sidereal/ },
    against: 'Meeus, ex. 12.a; NOVAS C 3.1',
  },
  {
    what: 'Nutation',
    of: { group: 'Printed places', subject: /Nutation/ },
    against: 'Meeus, ex. 22.a',
  },
  {
    what: 'Mars in 2003: parallax, declination from Palomar',
    of: { group: 'Printed places', subject: /^Mars$/ },
    against: 'Meeus, ex. 40.a',
  },
  {
    what: 'The Sun’s GHA in a printed sight of 1984',
    of: { group: 'Printed places', quantity: /minutes of GHA/ },
    against: 'NAVEDTRA 14220/14221 p. 9-24 (tables to the tenth)',
  },
  {
    what: 'Moon’s horizontal parallax',
    of: { group: 'Printed places', subject: /^Moon$/, quantity: /parallax/ },
    against: 'Meeus, ex. 47.a',
  },
  {
    what: 'Lit fraction of Moon and Venus in print',
    of: { group: 'Printed places', quantity: /lit fraction/ },
    against: 'Meeus, ex. 41.a, 48.a',
  },
  {
    what: 'Lit fraction of Moon and planets',
    of: { group: 'Appearance', quantity: /lit fraction/ },
    against: 'skyfield 1.55',
  },
  {
    what: 'Magnitudes of planets',
    of: { group: 'Appearance', quantity: /magnitude/ },
    against: 'skyfield 1.55 (Mallama & Hilton 2018)',
  },
  {
    what: 'α¹ Centauri with its orbit; Sirius B; α Centauri’s separation',
    of: { group: 'Binaries' },
    against:
      'The Astronomical Almanac 2016; Gaia DR2 and the Washington Double Star Catalog (from memory)',
  },
  ...['Sun', 'Moon', 'Venus', 'Mars', 'Jupiter', 'Saturn'].map((body) => ({
    what: `${body} outside 1950–2053 (astronomy-engine), tried on 1990–2049`,
    of: { group: 'Second opinion', subject: new RegExp(`^${body}$`) },
    against: 'DE421',
  })),
  {
    what: 'Stars of 1600–2100 without an ephemeris: declination',
    of: { group: 'Second opinion', subject: /1600/ },
    against: 'astronomy-engine 2.1.19',
  },
  { what: 'Leap seconds', of: { group: 'Time', subject: /TAI/ }, against: 'IERS Bulletin C' },
  { what: 'DUT1', of: { group: 'Time', subject: /UT1 − UTC/ }, against: 'IERS finals2000A' },
  {
    what: 'TT from UTC, leap seconds among them',
    of: { group: 'Time', subject: /^TT$/ },
    against: 'pyerfa 2.0.1.5, 1972–2026',
  },
  {
    what: 'UT1 from UTC, leap seconds among them',
    of: { group: 'Time', subject: /^UT1$/ },
    against: 'pyerfa 2.0.1.5 with IERS finals2000A, 1972–2026',
  },
  { what: 'Julian date', of: { group: 'Time', subject: /Julian/ }, against: 'Meeus, p. 62' },
  { what: 'ΔT before 1962', of: { group: 'Time', subject: /ΔT/ }, against: 'Meeus, table 10.A' },
  {
    what: 'Dip, critical table in metres: every entry to the printed tenth',
    of: { group: 'Corrections', subject: /^Dip$/, quantity: /critical/ },
    against: 'The Nautical Almanac, dip table (from memory)',
  },
  {
    what: 'Dip, tables in metres and feet',
    of: { group: 'Corrections', subject: /^Dip$/, quantity: /metres$|feet/ },
    against:
      'the same; the table is made with 1.76′√h, the almanac’s own formula (ours) with 1.758′√h',
  },
  {
    what: 'Dip short of the horizon',
    of: { group: 'Corrections', subject: /Dip short/ },
    against: 'Bowditch vol. II, explanation of Table 14, approximate form (from memory)',
  },
  {
    what: 'Distance of the horizon',
    of: { group: 'Corrections', subject: /Distance of the horizon/ },
    against: 'Bowditch, 2024 ed., vol. II, Table 12',
  },
  {
    what: 'Refraction, integral: star table 10°–90°, every entry to the printed tenth',
    of: { group: 'Corrections', quantity: /integral, star table/ },
    against: ALMANAC_STARS,
  },
  {
    what: 'Refraction, integral: at the limits of that table',
    of: { group: 'Corrections', quantity: /integral at the limits/ },
    against: 'the same (limits are rounded)',
  },
  {
    what: 'Refraction, integral: 15°–90°, −20 to 40 °C',
    of: { group: 'Corrections', quantity: /integral, 15°/ },
    against: 'pyerfa 2.0.1.5 refco',
  },
  {
    what: 'Refraction, integral: 10°–14°, −20 to 40 °C',
    of: { group: 'Corrections', quantity: /integral, 10°–14°/ },
    against: 'pyerfa 2.0.1.5 refco (a two-term series)',
  },
  {
    what: 'Refraction, integral: −0.5°–89°, −20 to 40 °C',
    of: { group: 'Corrections', quantity: /integral, (5°|−0.5°)/ },
    against: PALPY,
  },
  {
    what: 'Refraction, integral: 1°–12°',
    of: { group: 'Corrections', quantity: /integral against/ },
    against: 'low-altitude formula of the Explanatory Supplement',
  },
  {
    what: 'Refraction, almanac’s formula: 10°–90°',
    of: { group: 'Corrections', quantity: /formula at the limits/ },
    against: 'the same star tables',
  },
  {
    what: 'Refraction, almanac’s formula: 10°–89°, 0 to 40 °C',
    of: { group: 'Corrections', quantity: /formula, 10°/ },
    against: PALPY,
  },
  {
    what: 'Refraction, almanac’s formula: 5°–30°',
    of: { group: 'Corrections', quantity: /Bennett/ },
    against: 'Bennett’s formula (1982)',
  },
  {
    what: 'Refraction, almanac’s formula: 3°–80°',
    of: { group: 'Corrections', quantity: /pairs of JPL Horizons/ },
    against: 'JPL Horizons, apparent less airless, 2019',
  },
  {
    what: 'Moon: parallax with the Earth’s figure, 0°–80° of latitude',
    of: { group: 'Corrections', subject: /^Moon$/, quantity: /parallax/, source: /skyfield/ },
    against: 'skyfield 1.55, DE421 (diurnal aberration, 0.0053′, is what is left)',
  },
  {
    what: 'Moon: the same, from printed and stored places',
    of: {
      group: 'Corrections',
      subject: /^Moon$/,
      quantity: /parallax|geocentric/,
      source: /NOVAS|Horizons/,
    },
    against: 'USNO NOVAS C 3.1 check-out; JPL Horizons 1965–2019',
  },
  {
    what: 'Moon: semi-diameter with augmentation',
    of: { group: 'Corrections', subject: /^Moon$/, quantity: /semi-diameter/, source: /skyfield/ },
    against: 'skyfield 1.55',
  },
  {
    what: 'Moon: semi-diameter with augmentation, in print',
    of: { group: 'Corrections', subject: /^Moon$/, quantity: /semi-diameter/, source: /Meeus/ },
    against: 'Meeus, exercise p. 282',
  },
  {
    what: 'Whole sights: Sun and Moon both limbs, Jupiter, Saturn; sea, bubble, artificial horizon, back sight',
    of: { group: 'Sights', source: /skyfield/ },
    against: 'readings made with skyfield 1.55 and pyerfa 2.0.1.5',
  },
  {
    what: 'Printed Sun sights, 1870 and 1984',
    of: { group: 'Sights', source: /NAVEDTRA|epitome/ },
    against: 'an epitome of about 1871, p. 36; NAVEDTRA 14220/14221 p. 9-24 (rounded tables)',
  },
  {
    what: 'Altitude and azimuth, 2000 random triangles',
    of: { group: 'Computed altitude and azimuth', subject: /Triangle/ },
    against: 'pyerfa 2.0.1.5',
  },
  {
    what: 'Altitude and azimuth of 10 bodies, 400 random places and times',
    of: { group: 'Computed altitude and azimuth', subject: /Bodies/ },
    against: 'skyfield 1.55, DE421',
  },
  {
    what: 'Rhumb lines, New York to Singapore: course; latitude and longitude every 2000 km',
    of: {
      group: 'Rhumb lines on WGS 84',
      quantity: /^(course|latitude|longitude)$/,
      source: /RhumbSolve/,
    },
    against: 'GeographicLib RhumbSolve, printed examples',
  },
  {
    what: 'Rhumb line, New York to Singapore: distance',
    of: { group: 'Rhumb lines on WGS 84', quantity: /^distance$/, source: /RhumbSolve/ },
    against: 'the same',
  },
  {
    what: 'A Mercator sailing: course',
    of: { group: 'Rhumb lines on WGS 84', source: /Bowditch/ },
    against: 'Bowditch (2024), art. 910',
  },
  {
    what: 'Distances along the meridian',
    of: { group: 'Rhumb lines on WGS 84', subject: /meridian/ },
    against: 'geographiclib 2.1',
  },
  {
    what: 'Rhumb lines of 300 nm',
    of: { group: 'Rhumb lines on WGS 84', subject: /300 nm/ },
    against: 'geographiclib 2.1, 600 geodesics end to end',
  },
  {
    what: 'Rise and set, Sun and Moon, printed to the minute',
    of: { group: /^(Printed places|Rise and set)$/, source: /U\.S\. Naval|USNO, Rise/ },
    against: 'USNO tables, 2019 among them',
  },
  {
    what: 'Rise and set of Sun, Moon, Venus; three twilights',
    of: { group: 'Rise and set', source: /skyfield/ },
    against: 'skyfield 1.55 almanac, 150 times at places below 50°',
  },
];

/** Checks that say nothing about accuracy against the outside. @type {readonly Choice[]} */
export const LEFT_OUT = [{ group: 'Places', subject: /^value object$/ }];
