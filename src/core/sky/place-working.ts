import type { Angle } from '../units/angle.js';
import { formatAngle, formatCorrection, formatLatitude } from '../units/angle-format.js';
import type { Instant } from '../units/instant.js';
import { Working, type Step, type StepInput } from '../working/working.js';
import { apparentPlace, ghaAries, type ApparentPlace } from './apparent-place.js';
import { isSolarSystem, type BodyName } from './body-names.js';

const ARIES_SOURCE =
  'IAU 2000 Earth rotation angle and IAU 2006 precession with nutation (IERS Conventions 2010, ch. 5)';

/**
 * Where a body stands, step by step as an almanac is used: UTC to UT1 and TT, GHA of Aries, SHA, GHA, declination, and
 * for the solar system parallax and semi-diameter.
 * @returns a working whose value is the apparent place; a predicted rotation of the Earth is a caution
 * @throws EntryError as `apparentPlace` does
 */
export function placeWorking(body: BodyName, instant: Instant): Working<ApparentPlace> {
  const place = apparentPlace(body, instant);
  const aries = ghaAries(instant);
  const last = declinationStep(place);
  return new Working<ApparentPlace>(
    `Apparent place: ${place.body}`,
    [
      entryStep(instant),
      universalTimeStep(instant),
      terrestrialTimeStep(instant),
      ariesStep(aries, instant),
      shaStep(place),
      ghaStep(place, aries),
      ...(isSolarSystem(place.body) ? [sizeStep(place)] : []),
      last,
    ],
    place.notes.filter((note) => note.startsWith('No ephemeris')),
  );
}

const written = (
  name: string,
  symbol: string,
  value: unknown,
  text: string,
  origin: StepInput['origin'],
): StepInput => ({
  name,
  symbol,
  value,
  text,
  origin,
});
const circle = (value: Angle) => formatAngle(value.degrees, 1, 3);
const seconds = (value: number, decimals: number) =>
  `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(decimals)} s`;

function entryStep(instant: Instant): Step<Instant> {
  return {
    rule: 'utc',
    title: 'Time of the sight',
    kind: 'entry',
    formula: { latex: '\\mathrm{UTC}', plain: 'UTC' },
    figures: String(instant),
    inputs: [written('time', 'UTC', instant, instant.text ?? String(instant), 'reading')],
    result: instant,
    errors: [],
    source: 'as read',
  };
}

function universalTimeStep(instant: Instant): Step<number> {
  const text = seconds(instant.dut1Seconds, 2);
  return {
    rule: 'ut1',
    title: 'Universal time UT1 (Julian date)',
    kind: 'rest',
    formula: { latex: '\\mathrm{UT1} = \\mathrm{UTC} + \\mathrm{DUT1}', plain: 'UT1 = UTC + DUT1' },
    figures: `${String(instant)} ${text}`,
    inputs: [written('UT1 − UTC', 'DUT1', instant.dut1Seconds, text, 'table')],
    result: instant.ut1,
    errors: [],
    source: instant.earthRotationNote,
    ...(instant.predicted
      ? { caution: `The Earth’s rotation is predicted: ${instant.earthRotationNote}.` }
      : {}),
  };
}

function terrestrialTimeStep(instant: Instant): Step<number> {
  const text = seconds(instant.deltaTSeconds, 2);
  return {
    rule: 'tt',
    title: 'Terrestrial time TT (Julian date), which the ephemeris runs on',
    kind: 'rest',
    formula: { latex: '\\mathrm{TT} = \\mathrm{UT1} + \\Delta T', plain: 'TT = UT1 + ΔT' },
    figures: `UT1 ${text}`,
    inputs: [written('TT − UT1', 'ΔT', instant.deltaTSeconds, text, 'table')],
    result: instant.tt,
    errors: [],
    source: instant.earthRotationNote,
  };
}

function ariesStep(aries: Angle, instant: Instant): Step<Angle> {
  return {
    rule: 'gha-aries',
    title: 'GHA of Aries',
    kind: 'rest',
    formula: {
      latex: '\\mathrm{GHA}_\\Upsilon = \\theta(\\mathrm{UT1}) + p + \\Delta\\psi\\cos\\varepsilon',
      plain: 'GHA Aries = Earth rotation angle + precession + equation of the equinoxes',
    },
    figures: circle(aries),
    inputs: [written('UT1', 'UT1', instant.ut1, instant.ut1.toFixed(6), 'earlier step')],
    result: aries,
    errors: [],
    source: ARIES_SOURCE,
  };
}

function shaStep(place: ApparentPlace): Step<Angle> {
  return {
    rule: 'sha',
    title: 'SHA',
    kind: 'rest',
    formula: {
      latex: '\\mathrm{SHA} = 360^\\circ - \\alpha',
      plain: 'SHA = 360° − right ascension',
    },
    figures: `360° − ${circle(place.rightAscension)}`,
    inputs: [
      written(
        'apparent right ascension',
        'α',
        place.rightAscension,
        circle(place.rightAscension),
        'computed',
      ),
    ],
    result: place.sha,
    errors: [],
    source: place.source,
  };
}

function ghaStep(place: ApparentPlace, aries: Angle): Step<Angle> {
  const sum = aries.degrees + place.sha.degrees;
  return {
    rule: 'gha',
    title: 'GHA',
    kind: 'rest',
    formula: {
      latex: '\\mathrm{GHA} = \\mathrm{GHA}_\\Upsilon + \\mathrm{SHA}',
      plain: 'GHA = GHA Aries + SHA',
    },
    figures: `${circle(aries)} + ${circle(place.sha)}${sum >= 360 ? ' − 360°' : ''}`,
    inputs: [
      written('GHA of Aries', 'GHA Aries', aries, circle(aries), 'earlier step'),
      written('SHA', 'SHA', place.sha, circle(place.sha), 'earlier step'),
    ],
    result: place.gha,
    errors: [],
    source: 'by definition',
  };
}

function sizeStep(place: ApparentPlace): Step<Angle> {
  const km = place.distanceKm ?? NaN;
  const [hp, sd] = [place.horizontalParallax, place.semidiameter];
  return {
    rule: 'hp-sd',
    title: 'Horizontal parallax and semi-diameter',
    kind: 'rest',
    formula: {
      latex: '\\sin\\mathrm{HP} = a/r,\\ \\sin\\mathrm{SD} = R/r',
      plain: 'sin HP = a/r, sin SD = R/r',
    },
    figures: `HP ${formatCorrection(hp.arcminutes).replace('+', '')}, SD ${formatCorrection(sd.arcminutes).replace('+', '')}`,
    inputs: [
      written('distance', 'r', km, `${Math.round(km)} km`, 'computed'),
      written(
        'semi-diameter',
        'SD',
        sd,
        formatCorrection(sd.arcminutes).replace('+', ''),
        'computed',
      ),
    ],
    result: hp,
    errors: [],
    source: place.source,
  };
}

function declinationStep(place: ApparentPlace): Step<ApparentPlace> {
  return {
    rule: 'declination',
    title: 'Declination, and with it the place',
    kind: 'result',
    formula: {
      latex: '\\delta',
      plain: 'light time, deflection by the Sun, aberration, precession and nutation applied',
    },
    figures: `GHA ${circle(place.gha)}, Dec ${formatLatitude(place.declination.degrees)}`,
    inputs: [
      written(
        'declination',
        'δ',
        place.declination,
        formatLatitude(place.declination.degrees),
        'computed',
      ),
    ],
    result: place,
    errors: [],
    source: place.source,
  };
}
