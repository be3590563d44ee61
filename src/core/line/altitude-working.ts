import { Angle } from '../units/angle.js';
import { formatBearing, formatLatitude, formatLongitude } from '../units/angle-format.js';
import type { Position } from '../units/position.js';
import { Working, type Step, type StepInput } from '../working/working.js';
import { azimuthAngle } from './azimuth-name.js';
import { checkDeclination, localHourAngle, type ComputedAltitude } from './computed-altitude.js';
import { acosDeg, arcHavDeg, asinDeg, cosDeg, havDeg, sinDeg } from './trig.js';

/** Ways to the same altitude and azimuth: the almanac's S, C, H, X, A, Z scheme; the cosine formulas; haversines. */
export type AltitudeRoute = 'almanac' | 'cosine' | 'haversine';

const ALMANAC =
  'The Nautical Almanac, sight reduction procedures, direct computation (from memory)';
const BOWDITCH =
  'Bowditch, American Practical Navigator, NGA Pub. 9, sight reduction by trigonometry (from memory)';

/**
 * The computed altitude and azimuth with their steps by the chosen route; `value` has both. All routes agree to the last
 * printed digit save where the cosine route loses some near the zenith (its step says so). Sources stand in the steps.
 * @param gha westward, any turn
 * @param declination north positive, within ±90°
 * @param route `almanac` unless told
 * @throws OutOfRangeError when the declination exceeds 90°
 */
export function computedAltitudeWorking(
  position: Position,
  gha: Angle,
  declination: Angle,
  route: AltitudeRoute = 'almanac',
): Working<ComputedAltitude> {
  checkDeclination(declination);
  const lha = localHourAngle(position, gha);
  const start: Step<Angle> = {
    rule: 'local hour angle',
    title: 'Local hour angle',
    kind: 'result',
    formula: {
      latex: '\\mathrm{LHA} = \\mathrm{GHA} + \\lambda_E',
      plain: 'LHA = GHA + longitude (E +, W −)',
    },
    figures: `${gha.toString()} ${position.lonDeg < 0 ? '−' : '+'} ${formatLongitude(position.lonDeg).replace(/ [EW]$/, '')}`,
    inputs: [
      input('GHA', 'GHA', gha, gha.toString(), 'computed'),
      input('longitude', 'λ', position.longitude, formatLongitude(position.lonDeg), 'given'),
    ],
    result: lha,
    errors: [],
    source: ALMANAC,
  };
  const figures: Figures = {
    latDeg: position.latDeg,
    decDeg: declination.degrees,
    lhaDeg: lha.degrees,
  };
  const rest = ROUTES[route](figures);
  return new Working<ComputedAltitude>(
    `Computed altitude and azimuth at ${position.toString()}, ${ROUTE_NAMES[route]}`,
    [start, ...rest] as unknown as [...Step[], Step<ComputedAltitude>],
  );
}

const ROUTE_NAMES: Record<AltitudeRoute, string> = {
  almanac: 'the almanac’s scheme',
  cosine: 'cosine formulas',
  haversine: 'haversines',
};

interface Figures {
  readonly latDeg: number;
  readonly decDeg: number;
  readonly lhaDeg: number;
}

const ROUTES: Record<AltitudeRoute, (f: Figures) => readonly Step[]> = {
  almanac: almanacRoute,
  cosine: cosineRoute,
  haversine: haversineRoute,
};

function almanacRoute(f: Figures): readonly Step[] {
  const { latDeg, decDeg, lhaDeg } = f;
  const s = sinDeg(decDeg);
  const c = cosDeg(decDeg) * cosDeg(lhaDeg);
  const hcDeg = asinDeg(s * sinDeg(latDeg) + c * cosDeg(latDeg));
  const cosHc = cosDeg(hcDeg);
  const x = cosHc < 1e-12 ? 1 : clamp((s * cosDeg(latDeg) - c * sinDeg(latDeg)) / cosHc);
  const a = acosDeg(x);
  const z = lhaDeg > 180 ? a : (360 - a) % 360;
  const [lat, dec, lha] = texts(f);
  return [
    step('S', 'S', 'S = \\sin \\delta', 'S = sin Dec', `sin ${dec}`, s, ALMANAC),
    step(
      'C',
      'C',
      'C = \\cos \\delta \\cos \\mathrm{LHA}',
      'C = cos Dec cos LHA',
      `cos ${dec} × cos ${lha}`,
      c,
      ALMANAC,
    ),
    step(
      'altitude',
      'Computed altitude H',
      'H = \\sin^{-1}(S \\sin \\varphi + C \\cos \\varphi)',
      'H = asin(S sin Lat + C cos Lat)',
      `asin(${num(s)} × sin ${lat} + ${num(c)} × cos ${lat})`,
      Angle.degrees(hcDeg),
      ALMANAC,
    ),
    step(
      'X',
      'X',
      'X = (S \\cos \\varphi - C \\sin \\varphi)/\\cos H',
      'X = (S cos Lat − C sin Lat) / cos H, within ±1',
      `(${num(s)} × cos ${lat} − ${num(c)} × sin ${lat}) / cos ${deg(hcDeg)}`,
      x,
      ALMANAC,
    ),
    step('A', 'A', 'A = \\cos^{-1} X', 'A = acos X', `acos ${num(x)}`, Angle.degrees(a), ALMANAC),
    last(
      hcDeg,
      z,
      'Z = A \\text{ if } \\mathrm{LHA} > 180°, \\text{ else } 360° - A',
      'Z = A if LHA > 180°, otherwise 360° − A',
      lhaDeg > 180 ? `LHA ${lha} > 180°: Z = A` : `LHA ${lha} ≤ 180°: 360° − ${deg(a)}`,
      ALMANAC,
    ),
  ];
}

function cosineRoute(f: Figures): readonly Step[] {
  const { latDeg, decDeg, lhaDeg } = f;
  const [lat, dec, lha] = texts(f);
  const hcDeg = asinDeg(
    sinDeg(latDeg) * sinDeg(decDeg) + cosDeg(latDeg) * cosDeg(decDeg) * cosDeg(lhaDeg),
  );
  const below = cosDeg(latDeg) * cosDeg(hcDeg);
  // At a pole or the zenith the quotient is 0/0: the azimuth is then the hour angle turned, or does not exist.
  const cosZ =
    below < 1e-12
      ? poleCosine(f)
      : clamp((sinDeg(decDeg) - sinDeg(latDeg) * sinDeg(hcDeg)) / below);
  const z = acosDeg(cosZ);
  const zn = lhaDeg > 180 ? z : (360 - z) % 360;
  return [
    step(
      'altitude',
      'Computed altitude',
      '\\sin H_c = \\sin \\varphi \\sin \\delta + \\cos \\varphi \\cos \\delta \\cos \\mathrm{LHA}',
      'sin Hc = sin Lat sin Dec + cos Lat cos Dec cos LHA',
      `asin(sin ${lat} × sin ${dec} + cos ${lat} × cos ${dec} × cos ${lha})`,
      Angle.degrees(hcDeg),
      BOWDITCH,
      hcDeg > 89 ? 'Near the zenith the arcsine loses digits: prefer haversines here.' : undefined,
    ),
    step(
      'azimuth angle',
      'Azimuth from north',
      '\\cos Z = (\\sin \\delta - \\sin \\varphi \\sin H_c)/(\\cos \\varphi \\cos H_c)',
      'cos Z = (sin Dec − sin Lat sin Hc) / (cos Lat cos Hc)',
      `acos((sin ${dec} − sin ${lat} × sin ${deg(hcDeg)}) / (cos ${lat} × cos ${deg(hcDeg)}))`,
      Angle.degrees(z),
      BOWDITCH,
    ),
    last(
      hcDeg,
      zn,
      'Z_n = Z \\text{ if } \\mathrm{LHA} > 180°, \\text{ else } 360° - Z',
      'Zn = Z when the body is east of the meridian, otherwise 360° − Z',
      `LHA ${lha}: ${lhaDeg > 180 ? 'east' : 'west'} of the meridian`,
      BOWDITCH,
    ),
  ];
}

function poleCosine({ latDeg, lhaDeg }: Figures): number {
  return latDeg > 0 ? -cosDeg(lhaDeg) : cosDeg(lhaDeg);
}

function haversineRoute(f: Figures): readonly Step[] {
  const { latDeg, decDeg, lhaDeg } = f;
  const [lat, dec, lha] = texts(f);
  const havZd = havDeg(latDeg - decDeg) + cosDeg(latDeg) * cosDeg(decDeg) * havDeg(lhaDeg);
  const zd = arcHavDeg(havZd);
  // The triangle seen from the elevated pole: colatitude, polar distance, zenith distance.
  const sign = latDeg < 0 ? -1 : 1;
  const [colat, polar] = [90 - Math.abs(latDeg), 90 - sign * decDeg];
  const below = sinDeg(colat) * sinDeg(zd);
  const havZ =
    below < 1e-12
      ? (1 - clamp(sign * poleCosine(f))) / 2
      : (havDeg(polar) - havDeg(colat - zd)) / below;
  const z = arcHavDeg(havZ);
  const towards = lhaDeg > 180 ? 'E' : 'W';
  const zn =
    sign > 0 ? (towards === 'E' ? z : (360 - z) % 360) : towards === 'E' ? 180 - z : 180 + z;
  const named = azimuthAngle(Angle.degrees(zn), latDeg);
  return [
    step(
      'haversine of zenith distance',
      'Haversine of the zenith distance',
      '\\mathrm{hav}\\,z = \\mathrm{hav}(\\varphi - \\delta) + \\cos \\varphi \\cos \\delta\\, \\mathrm{hav}\\,\\mathrm{LHA}',
      'hav z = hav(Lat ~ Dec) + cos Lat cos Dec hav LHA',
      `hav(${deg(latDeg - decDeg)}) + cos ${lat} × cos ${dec} × hav ${lha}`,
      havZd,
      BOWDITCH,
    ),
    step(
      'altitude',
      'Computed altitude',
      'H_c = 90° - z',
      'Hc = 90° − z',
      `90° − ${deg(zd)}`,
      Angle.degrees(90 - zd),
      BOWDITCH,
    ),
    step(
      'azimuth angle',
      'Azimuth angle from the elevated pole',
      '\\mathrm{hav}\\,Z = (\\mathrm{hav}\\,p - \\mathrm{hav}(\\bar\\varphi - z))/(\\sin \\bar\\varphi \\sin z)',
      'hav Z = (hav p − hav(colat ~ z)) / (sin colat sin z), p the polar distance',
      `(hav ${deg(polar)} − hav(${deg(colat - zd)})) / (sin ${deg(colat)} × sin ${deg(zd)})`,
      Angle.degrees(z),
      BOWDITCH,
    ),
    last(90 - zd, zn, 'Z \\to Z_n', 'Zn from the azimuth angle by its name', named.text, BOWDITCH),
  ];
}

function step<R>(
  rule: string,
  title: string,
  latex: string,
  plain: string,
  figures: string,
  result: R,
  source: string,
  caution?: string,
): Step<R> {
  return {
    rule,
    title,
    kind: 'result',
    formula: { latex, plain },
    figures,
    inputs: [],
    result,
    errors: [],
    source,
    ...(caution ? { caution } : {}),
  };
}

function last(
  hcDeg: number,
  znDeg: number,
  latex: string,
  plain: string,
  figures: string,
  source: string,
): Step<ComputedAltitude> {
  const azimuthDefined = Math.abs(hcDeg) < 90 - 1e-6;
  const azimuth = Angle.degrees(azimuthDefined ? znDeg : 0).normalized();
  const value: ComputedAltitude = Object.freeze({
    altitude: Angle.degrees(hcDeg),
    azimuth,
    azimuthDefined,
    toString: () =>
      `Hc ${Angle.degrees(hcDeg).toString()}, Zn ${formatBearing(azimuth.degrees, 1)}`,
  });
  return step(
    'azimuth',
    'True azimuth Zn',
    latex,
    plain,
    figures,
    value,
    source,
    azimuthDefined ? undefined : 'The body is in the zenith: it has no azimuth.',
  );
}

function input(
  name: string,
  symbol: string,
  value: unknown,
  text: string,
  origin: StepInput['origin'],
): StepInput {
  return { name, symbol, value, text, origin };
}

const texts = (f: Figures): [string, string, string] => [
  formatLatitude(f.latDeg),
  formatLatitude(f.decDeg),
  Angle.degrees(f.lhaDeg).toString(),
];
const deg = (d: number): string => Angle.degrees(d).toString();
const num = (x: number): string => x.toFixed(6).replace('-', '−');
const clamp = (x: number): number => Math.max(-1, Math.min(1, x));
