import {
  altitudeKernel,
  Angle,
  angle,
  apparentPlace,
  fix,
  Instant,
  knots,
  position,
  rhumbDestination,
  Length,
  type AltitudeObservation,
  type BodyName,
  type Fix,
  type FixOptions,
} from '../../src/index.js';

/** Where the yawl is taken to be at 05:33, and how she runs. Invented. */
const TRUTH = position('18°41.2′ S', '000°30.9′ W');
const COURSE = angle('312°');
const SPEED = knots(5.2);
const AT = Instant.utc('2027-05-14 05:33:00 UTC');

/** Stars of a dawn round, when each was taken, and how far off each altitude is, minutes of arc. */
const ROUND: readonly (readonly [BodyName, string, number])[] = [
  ['Achernar', '05:21:12', 0.5],
  ['Altair', '05:24:07', -0.9],
  ['Fomalhaut', '05:29:40', 0.7],
  ['Antares', '05:33:00', -0.4],
  ['Peacock', '05:22:30', -0.6],
  ['Vega', '05:25:31', 0.2],
  ['Shaula', '05:26:44', 1.1],
  ['Achernar', '05:27:50', -0.1],
  ['Altair', '05:30:15', 0.8],
  ['Fomalhaut', '05:31:09', -0.7],
  ['Rasalhague', '05:31:58', 0.3],
  ['Diphda', '05:32:30', 2.8],
];

/** Altitudes as they would be observed from the yawl, each off by the minutes given. */
export function sampleRound(count = 4): AltitudeObservation[] {
  return ROUND.slice(0, count).map(([body, time, errorArcmin]) => {
    const instant = Instant.utc(`2027-05-14 ${time} UTC`);
    const place = apparentPlace(body, instant);
    const hours = instant.minus(AT).hours;
    const at = rhumbDestination(TRUTH, COURSE, Length.nauticalMiles(SPEED.knots * hours));
    const { altDeg } = altitudeKernel(
      at.latDeg,
      at.lonDeg,
      place.gha.degrees,
      place.declination.degrees,
    );
    return {
      body,
      instant,
      observed: Angle.degrees(altDeg + errorArcmin / 60),
      gha: place.gha,
      declination: place.declination,
      placeSource: place.source,
      causes: [
        { cause: 'observer', sigmaArcmin: 0.7 },
        { cause: 'index', sigmaArcmin: 0.2, sharedKey: 'index:2027-05-14' },
        { cause: 'dip', sigmaArcmin: 0.4, sharedKey: 'dip:2027-05-14' },
      ],
      dr: position('18°44.6′ S', '000°27.1′ W'),
      course: COURSE,
      speed: SPEED,
    };
  });
}

export const sampleFix = (count = 4, options: FixOptions = {}): Fix =>
  fix(sampleRound(count), { dr: position('18°44.6′ S', '000°27.1′ W'), ...options });
