import { altitudeKernel } from '../../core/line/index.js';
import { sightPlace, type Sight } from '../../core/sextant/index.js';
import { Angle, Length, type Position } from '../../core/units/index.js';
import type { ExpectedLine, LineSlip } from '../question/index.js';

/** What the lines of one reduction are about. */
export interface Reduction<G> {
  /** Put after each key and before each title where a question has several: `1`, `Sirius`. */
  readonly mark: string;
  readonly name: string;
  sight(given: G): Sight;
  /** The position it is computed for, from the figures above where it was worked out there. */
  from(given: G, figures: { angle(line: string): Angle }): Position;
}

const named = (name: string, title: string) => (name ? `${name}: ${title}` : title);

/** GHA, declination, LHA, Hc, Zn and intercept of a sight whose observed altitude is in line `observed` + mark. */
export function reductionLines<G>({ mark, name, sight, from }: Reduction<G>): ExpectedLine<G>[] {
  const id = (line: string) => line + mark;
  const horizontal = (g: G, f: { angle(line: string): Angle }) => {
    const at = from(g, f);
    const lon = f.angle(id('lha')).minus(f.angle(id('gha')));
    return altitudeKernel(
      at.latDeg,
      lon.degrees,
      f.angle(id('gha')).degrees,
      f.angle(id('declination')).degrees,
    );
  };
  return [
    {
      id: id('gha'),
      title: named(name, 'Greenwich hour angle'),
      quantity: 'hourAngle',
      formula:
        'the hour from the daily page and the increment for minutes and seconds; for a star, Aries and SHA',
      rule: (g) => sightPlace(sight(g)).gha,
      hint: 'Check date, hour and minute, one after the other.',
    },
    {
      id: id('declination'),
      title: named(name, 'declination'),
      quantity: 'declination',
      formula: 'from the daily page, with its name',
      rule: (g) => sightPlace(sight(g)).declination,
    },
    {
      id: id('lha'),
      title: named(name, 'local hour angle'),
      quantity: 'hourAngle',
      formula: 'GHA with the longitude applied: east is added, west is taken away',
      rule: (g, f) => f.angle(id('gha')).plus(from(g, f).longitude).normalized(),
      slips: (g, f) => [longitudeSign(f.angle(id('gha')), from(g, f))],
      hint: 'Draw the circle seen from above the pole.',
    },
    {
      id: id('hc'),
      title: named(name, 'computed altitude'),
      quantity: 'altitude',
      formula: 'sin Hc = sin Lat sin Dec + cos Lat cos Dec cos LHA, north positive',
      rule: (g, f) => Angle.degrees(horizontal(g, f).altDeg),
      slips: (g, f) => [sameName(from(g, f), f.angle(id('declination')), f.angle(id('lha')))],
      hint: 'Latitude and declination of the same name have the same sign.',
    },
    {
      id: id('zn'),
      title: named(name, 'azimuth'),
      quantity: 'bearing',
      formula: 'the true bearing of the body, from north through east to 360°',
      rule: (g, f) => Angle.degrees(horizontal(g, f).azDeg),
      hint: 'East of the meridian while the local hour angle is over 180°, west of it while under.',
    },
    {
      id: id('intercept'),
      title: named(name, 'intercept'),
      quantity: 'intercept',
      formula: 'the observed less the computed altitude: toward when the observed is the greater',
      rule: (_g, f) =>
        Length.nauticalMiles(f.angle(id('observed')).minus(f.angle(id('hc'))).arcminutes),
      hint: 'The greater observed altitude means the nearer body.',
    },
  ];
}

const longitudeSign = (gha: Angle, at: Position): LineSlip => ({
  name: 'sign of the longitude',
  value: gha.minus(at.longitude).normalized(),
  sentence: 'The longitude was applied the wrong way: east is added, west is taken away.',
});

const sameName = (at: Position, declination: Angle, lha: Angle): LineSlip => ({
  name: 'same and contrary name',
  value: Angle.degrees(altitudeKernel(at.latDeg, lha.degrees, 0, -declination.degrees).altDeg),
  sentence:
    'Latitude and declination were taken as of the same name when they are not, or the other way round.',
});
