import {
  apparentPlace,
  appearance,
  ghaAries,
  Instant,
  newPlaceNumbers,
  placeKernel,
  starFrom,
  starKernel,
  type BodyName,
} from 'cocked-hat';
import meeus from './fixtures/meeus.json';
import novas from './fixtures/novas.json';
import { nutationSeries } from '../../src/core/sky/nutation.js';
import type { Check, Comparison } from './compare.js';
import { fromGeocentric } from './topocentric.js';

const J2000 = 2451545;
const CIRCLE_ARCMIN = 21600;
const DEG = Math.PI / 180;
const tt = (jd: number) => Instant.fromJulianDates({ tt: jd });

/** The source line of a worked example, so that each check names its page. */
function meeusSource(id: string): string {
  const entry = meeus.entries.find((e) => e.id === id);
  if (!entry) throw new Error(`no fixture ${id}`);
  return entry.source.replace('J. Meeus', 'Meeus');
}

/** `13h13m30.749s`, `-7°47'01.74"` as they stand in the fixtures, in minutes of arc. */
function hms(text: string): number {
  const [h, m, s] = text.match(/[\d.]+/g)?.map(Number) as [number, number, number];
  return (h * 60 + m + s / 60) * 15;
}
function dms(text: string): number {
  const [d, m, s] = text.match(/[\d.]+/g)?.map(Number) as [number, number, number];
  return (text.startsWith('-') ? -1 : 1) * (d * 60 + m + s / 60);
}

interface Printed {
  readonly label: string;
  readonly source: string;
  readonly raArcmin: number;
  readonly decArcmin: number;
  readonly place: () => { raDeg: number; decDeg: number };
}

/** Printed apparent places, one check each for right ascension (as an arc on the sky) and declination. */
function printed(entry: Printed, tolerance: number, reason: string): Check[] {
  const one = (quantity: 'right ascension × cos dec' | 'declination'): Check => ({
    group: 'Printed places',
    subject: entry.label,
    quantity,
    unit: '′',
    tolerance,
    reason,
    source: entry.source,
    expected: 1,
    modulo: CIRCLE_ARCMIN,
    *cases() {
      const { raDeg, decDeg } = entry.place();
      if (quantity === 'declination')
        yield { label: entry.label, ours: decDeg * 60, theirs: entry.decArcmin };
      else {
        const difference = raDeg * 60 - entry.raArcmin;
        const arc = difference - CIRCLE_ARCMIN * Math.round(difference / CIRCLE_ARCMIN);
        yield { label: entry.label, ours: arc * Math.cos(decDeg * DEG), theirs: 0 };
      }
    },
  });
  return [one('right ascension × cos dec'), one('declination')];
}

const placeAt = (body: BodyName, jd: number) => () => {
  const p = apparentPlace(body, tt(jd));
  return { raDeg: p.rightAscension.degrees, decDeg: p.declination.degrees };
};

const THEORY =
  'printed to 0.01″; the book uses VSOP87, FK5 and the nutation of 1980, up to 0.1″ from DE421 and IAU 2006';

function meeusPlaces(): Check[] {
  const thetaPersei = starFrom({
    name: 'θ Persei',
    raDeg: hms('2h44m11.986s') / 60,
    decDeg: dms('49°13\'42.48"') / 60,
    epochJd: J2000,
    pmRaCosDecMasPerYr: 0.03425 * 15 * 1000 * Math.cos(49.2285 * DEG),
    pmDecMasPerYr: -89.5,
    parallaxMas: 0,
    radialVelocityKmS: 0,
  });
  const jd = 2462088.69;
  return [
    ...printed(
      {
        label: 'Sun 1992-10-13',
        source: meeusSource('meeus-25b'),
        raArcmin: hms('13h13m30.749s'),
        decArcmin: dms('-7°47\'01.74"'),
        place: placeAt('Sun', 2448908.5),
      },
      0.003,
      THEORY,
    ),
    ...printed(
      {
        label: 'Venus 1992-12-20',
        source: meeusSource('meeus-33a'),
        raArcmin: hms('21h04m41.454s'),
        decArcmin: dms('-18°53\'16.84"'),
        place: placeAt('Venus', 2448976.5),
      },
      0.003,
      THEORY,
    ),
    ...printed(
      {
        label: 'θ Persei 2028-11-13',
        source: meeusSource('meeus-23a'),
        raArcmin: hms('2h46m14.390s'),
        decArcmin: dms('49°21\'07.45"'),
        place: () => starKernel(thetaPersei, jd, jd, newPlaceNumbers()),
      },
      0.003,
      `${THEORY}; no parallax in the book`,
    ),
  ];
}

function meeusQuantities(): Check[] {
  const check = (
    subject: string,
    quantity: string,
    unit: string,
    tolerance: number,
    reason: string,
    id: string,
    cases: () => Iterable<Comparison>,
    expected = 1,
  ): Check => ({
    group: 'Printed places',
    subject,
    quantity,
    unit,
    tolerance,
    reason,
    source: meeusSource(id),
    expected,
    cases,
  });
  return [
    check(
      'Sidereal time',
      'apparent, 1987-04-10',
      's',
      0.01,
      'IAU 1982 and 1980 models in the book; its own check says 0.01 s for IAU 2006',
      'meeus-12a',
      function* () {
        const instant = Instant.fromJulianDates({ tt: 2446895.5 + 55.3 / 86400, ut1: 2446895.5 });
        yield {
          label: '0h UT',
          ours: ghaAries(instant).hours * 3600,
          theirs: 13 * 3600 + 10 * 60 + 46.1351,
        };
      },
    ),
    check(
      'Nutation',
      'in longitude and obliquity, 1987-04-10',
      '″',
      0.01,
      'the theory of 1980 in the book is off by more than 0.005″ in longitude; IAU 2000B here',
      'meeus-22a',
      function* () {
        const out = new Float64Array(2);
        nutationSeries((2446895.5 - J2000) / 36525, out);
        yield { label: 'Δψ', ours: out[0] ?? NaN, theirs: -3.788 };
        yield { label: 'Δε', ours: out[1] ?? NaN, theirs: 9.443 };
      },
      2,
    ),
    check(
      'Moon',
      'horizontal parallax, 1992-04-12',
      '′',
      0.001,
      'the book’s shortened series is 4 km off the whole one, 0.0006′',
      'meeus-47a',
      function* () {
        yield {
          label: '0h TD',
          ours: apparentPlace('Moon', tt(2448724.5)).horizontalParallax.arcminutes,
          theirs: 0.99199 * 60,
        };
      },
    ),
    check(
      'Moon',
      'lit fraction, 1992-04-12',
      'of 1',
      0.0002,
      'printed to 10⁻⁴ (from memory); lengths of the Moon’s way differ slightly',
      'meeus-48a',
      function* () {
        yield { label: '0h TD', ours: appearance('Moon', 2448724.5).phase ?? NaN, theirs: 0.6786 };
      },
    ),
    check(
      'Venus',
      'lit fraction, 1992-12-20',
      'of 1',
      0.0005,
      'printed to 10⁻³',
      'meeus-41a',
      function* () {
        yield { label: '0h TD', ours: appearance('Venus', 2448976.5).phase ?? NaN, theirs: 0.647 };
      },
    ),
    check(
      'Mars',
      'horizontal parallax, 2003-08-28',
      '″',
      0.003,
      'printed distance has 5 digits',
      'meeus-40a',
      function* () {
        const hp = apparentPlace('Mars', Instant.utc('2003-08-28 03:17:00')).horizontalParallax;
        yield { label: '03:17 UT', ours: hp.arcseconds, theirs: 23.592 };
      },
    ),
    check(
      'Mars',
      'declination from Palomar, 2003-08-28',
      '″',
      0.15,
      'printed to 0.1″ (checks the parallax of the test’s own topocentric step)',
      'meeus-40a',
      function* () {
        const instant = Instant.utc('2003-08-28 03:17:00');
        const p = placeKernel('Mars', instant.tt, instant.ut1, newPlaceNumbers());
        const lst = ghaAries(instant).degrees - 116.8625;
        const seen = fromGeocentric(
          339.530208,
          -15.771083,
          p.distanceKm,
          lst,
          33 + 21 / 60 + 22 / 3600,
          1.706,
        );
        yield { label: '03:17 UT', ours: seen.decDeg * 3600, theirs: -(15 * 3600 + 46 * 60 + 30) };
      },
    ),
    check(
      'Sun',
      'longitude at equinoxes and solstices, 1996–2005',
      '′',
      0.004,
      'printed to 1 s, 0.0007′; VSOP87 and FK5 in the book, up to 0.1″ apart',
      'meeus-27E',
      seasons,
      10,
    ),
  ];
}

/** The Sun's apparent longitude at the printed times, less 0°, 90°, 180°, 270°. */
function* seasons(): Generator<Comparison> {
  const entry = meeus.entries.find((e) => e.id === 'meeus-27E');
  const { events } = entry?.inputs as { events: string[] };
  const { td } = entry?.expected as { td: string[] };
  const months: Record<string, [string, number]> = {
    Mar: ['03', 0],
    Jun: ['06', 90],
    Sep: ['09', 180],
    Dec: ['12', 270],
  };
  for (const [i, event] of events.entries()) {
    const [year, name] = event.split(' ') as [string, string];
    const [month, longitude] = months[name] ?? ['', NaN];
    const [day, time] = (td[i] ?? '').split(' ') as [string, string];
    const jd = Date.parse(`${year}-${month}-${day}T${time}Z`) / 86400000 + 2440587.5;
    const sun = placeAt('Sun', jd)();
    const nutation = new Float64Array(2);
    nutationSeries((jd - J2000) / 36525, nutation);
    const obliquity =
      ((84381.406 - (46.836769 * (jd - J2000)) / 36525 + (nutation[1] ?? NaN)) / 3600) * DEG;
    const [ra, dec] = [sun.raDeg * DEG, sun.decDeg * DEG];
    const ours =
      Math.atan2(
        Math.sin(ra) * Math.cos(obliquity) + Math.tan(dec) * Math.sin(obliquity),
        Math.cos(ra),
      ) / DEG;
    const off = ours - longitude;
    yield { label: event, ours: (off - 360 * Math.round(off / 360)) * 60, theirs: 0 };
  }
}

const NOVAS_SOURCE = 'USNO NOVAS C 3.1 check-out values (DE405)';

function novasChecks(): Check[] {
  const e = novas.example;
  const instant = Instant.fromJulianDates({ tt: e.expected.jd_tt, ut1: e.expected.jd_ut1 });
  const s = e.inputs.star;
  const star = starFrom({
    name: s.name,
    raDeg: s.ra_h * 15,
    decDeg: s.dec_deg,
    epochJd: J2000,
    pmRaCosDecMasPerYr: s.pm_ra_mas,
    pmDecMasPerYr: s.pm_dec_mas,
    parallaxMas: s.parallax_mas,
    radialVelocityKmS: s.rv_kms,
  });
  const [starRa, starDec] = e.expected.star_apparent as [number, number];
  const moon = e.expected.moon_apparent;
  return [
    ...printed(
      {
        label: s.name,
        source: NOVAS_SOURCE,
        raArcmin: starRa * 900,
        decArcmin: starDec * 60,
        place: () => starKernel(star, instant.tt, instant.ut1, newPlaceNumbers()),
      },
      0.0005,
      'printed to 10⁻¹⁰; ephemerides differ in the Earth’s velocity by nothing that shows',
    ),
    ...printed(
      {
        label: 'Moon 2008-04-24',
        source: NOVAS_SOURCE,
        raArcmin: moon.ra_h * 900,
        decArcmin: moon.dec_deg * 60,
        place: placeAt('Moon', e.expected.jd_tt),
      },
      0.0005,
      'DE405 and DE421 differ by 0.01″ in the Moon',
    ),
    {
      group: 'Printed places',
      subject: 'Moon, three dates of 1996',
      quantity: 'right ascension × cos dec, declination',
      unit: '′',
      tolerance: 0.0005,
      reason: 'DE405 and DE421 differ by 0.01″ in the Moon',
      source: NOVAS_SOURCE,
      expected: novas.moon_apparent.length * 2,
      *cases() {
        for (const [jd, ra, dec] of novas.moon_apparent as [number, number, number, number][]) {
          const p = placeAt('Moon', jd)();
          const off = (p.raDeg - ra * 15) * Math.cos(dec * DEG);
          yield { label: `JD ${jd}`, ours: off * 60, theirs: 0 };
          yield { label: `JD ${jd}`, ours: p.decDeg * 60, theirs: dec * 60 };
        }
      },
    },
    {
      group: 'Printed places',
      subject: 'Sidereal time',
      quantity: 'apparent, 2008-04-24',
      unit: 's',
      tolerance: 0.001,
      reason:
        'the printed UT1 has 10⁻⁶ day, 0.04 s, of which the test uses the exact sum; nutation 2000A against 2000K',
      source: NOVAS_SOURCE,
      expected: 1,
      *cases() {
        const utcJd = 2454580.5 + e.inputs.utc_hours / 24;
        const exact = Instant.fromJulianDates({
          tt: utcJd + (33 + 32.184) / 86400,
          ut1: utcJd + e.inputs.ut1_utc_s / 86400,
        });
        yield {
          label: 'GAST',
          ours: ghaAries(exact).hours * 3600,
          theirs: e.expected.gast_h * 3600,
        };
      },
    },
    ...novasTopocentricStars(),
  ];
}

/** Nine topocentric places at 45° N 75° W, right ascension as an arc and declination. */
function novasTopocentricStars(): Check[] {
  const catalogue = novas.stars.inputs.catalog_ICRS as [
    string,
    number,
    number,
    number,
    number,
    number,
    number,
  ][];
  const rows = novas.stars.expected_topocentric as [number, string, number, number][];
  const { delta_t_s, lat_deg, lon_deg } = novas.stars.inputs;
  const motions = new Map(
    catalogue.map(([name, ra, dec, pmRa, pmDec, px, rv]) => [
      name,
      starFrom({
        name,
        raDeg: ra * 15,
        decDeg: dec,
        epochJd: J2000,
        pmRaCosDecMasPerYr: pmRa,
        pmDecMasPerYr: pmDec,
        parallaxMas: px,
        radialVelocityKmS: rv,
      }),
    ]),
  );
  return [
    {
      group: 'Printed places',
      subject: '3 stars from 45° N 75° W',
      quantity: 'right ascension × cos dec, declination',
      unit: '′',
      tolerance: 0.0005,
      reason:
        'printed to 10⁻⁸ degree; the equator of NOVAS 3.1 is that of IAU 2000A/2006, polar motion is left out in both',
      source: NOVAS_SOURCE,
      expected: rows.length * 2,
      *cases() {
        for (const [jd, name, ra, dec] of rows) {
          const star = motions.get(name);
          if (!star) throw new Error(`no star ${name}`);
          const ut1 = jd - delta_t_s / 86400;
          const p = starKernel(star, jd, ut1, newPlaceNumbers());
          const local = ghaAries(Instant.fromJulianDates({ tt: jd, ut1 })).degrees + lon_deg;
          const seen = fromGeocentric(p.raDeg, p.decDeg, Infinity, local, lat_deg, 0);
          const off = (seen.raDeg - ra * 15) * Math.cos(dec * DEG);
          yield { label: `${name} JD ${jd}`, ours: off * 60, theirs: 0 };
          yield { label: `${name} JD ${jd}`, ours: seen.decDeg * 60, theirs: dec * 60 };
        }
      },
    },
  ];
}

/** Minutes of the Sun's GHA as a printed sight has them (its whole degrees depend on the assumed longitude). */
function printedSight(): Check {
  return {
    group: 'Printed places',
    subject: 'Sun 1984-03-31 09:15:38',
    quantity: 'minutes of GHA',
    unit: '′',
    tolerance: 0.2,
    reason: 'worked with an almanac printed to 0.1′ and its increments, and UTC taken as UT1',
    source: 'U.S. Navy, NAVEDTRA 14220/14221, ch. 9 p. 9-24',
    expected: 1,
    modulo: 60,
    *cases() {
      const { gha } = apparentPlace('Sun', Instant.utc('1984-03-31 09:15:38'));
      yield { label: 'GHA', ours: gha.arcminutes, theirs: 52.2 };
    },
  };
}

/** Places printed in books and check-out files. */
export function printedSkyChecks(): Check[] {
  return [...meeusPlaces(), ...meeusQuantities(), printedSight(), ...novasChecks()];
}
