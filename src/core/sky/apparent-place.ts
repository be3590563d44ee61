import * as Engine from 'astronomy-engine';
import catalogue from '../../../data/nav-stars.json';
import { Angle } from '../units/angle.js';
import type { Instant } from '../units/instant.js';
import { isSolarSystem, type BodyName } from './body-names.js';

/** Geocentric apparent place of date of a body. GHA 0° to 360° westward; declination north positive. */
export interface ApparentPlace {
  readonly body: BodyName;
  readonly instant: Instant;
  readonly gha: Angle;
  readonly declination: Angle;
  /** Sidereal hour angle, 0° to 360°; for stars and planets alike. */
  readonly sha: Angle;
  readonly rightAscension: Angle;
  /** Equatorial horizontal parallax; zero for stars. */
  readonly horizontalParallax: Angle;
  /** Geocentric semi-diameter; zero for stars and planets. */
  readonly semidiameter: Angle;
  readonly distanceKm?: number;
  readonly magnitude?: number;
  /** Illuminated fraction of the disc, 0 to 1. */
  readonly phase?: number;
  readonly source: string;
  readonly notes: readonly string[];
}

const AU_KM = 149597870.7;
const DEG = 180 / Math.PI;
const EARTH_RADIUS_KM = 6378.137;
const SUN_RADIUS_KM = 695700;
const MOON_RADIUS_KM = 1737.4;

function engineTime(instant: Instant): Engine.AstroTime {
  const time = new Engine.AstroTime(instant.ut1 - 2451545);
  time.tt = instant.tt - 2451545;
  return time;
}

/** GHA of the first point of Aries, 0° to 360°: the apparent sidereal time at Greenwich. */
export function ghaAries(instant: Instant): Angle {
  return Angle.hours(Engine.SiderealTime(engineTime(instant))).normalized();
}

/** Geocentric apparent place of date. */
export function apparentPlace(body: BodyName, instant: Instant): ApparentPlace {
  const time = engineTime(instant);
  const vector = isSolarSystem(body)
    ? Engine.GeoVector(body as Engine.Body, time, true)
    : starVector(body, time);
  const v = Engine.RotateVector(Engine.Rotation_EQJ_EQD(time), vector);
  const distanceAu = Math.hypot(v.x, v.y, v.z);
  const rightAscension = Angle.degrees(Math.atan2(v.y, v.x) * DEG).normalized();
  const gha = ghaAries(instant).minus(rightAscension).normalized();
  const km = distanceAu * AU_KM;
  const solar = isSolarSystem(body);
  const radiusKm = body === 'Sun' ? SUN_RADIUS_KM : body === 'Moon' ? MOON_RADIUS_KM : 0;
  return Object.freeze({
    body,
    instant,
    gha,
    declination: Angle.degrees(Math.asin(v.z / distanceAu) * DEG),
    sha: Angle.degrees(-rightAscension.degrees).normalized(),
    rightAscension,
    horizontalParallax: solar ? Angle.degrees(Math.asin(EARTH_RADIUS_KM / km) * DEG) : Angle.zero,
    semidiameter: Angle.degrees(Math.asin(radiusKm / km) * DEG),
    ...(solar ? { distanceKm: km } : {}),
    source: 'astronomy-engine',
    notes: [],
  });
}

function starVector(name: BodyName, time: Engine.AstroTime): Engine.Vector {
  const star = catalogue.stars.find((s) => s.name === name);
  if (!star) throw new RangeError(`no star ${name}`);
  const years = (time.tt + 2451545 - catalogue.epochJdTT) / 365.25;
  const dec = (star.decDeg + (star.pmDecMasPerYr * years) / 3.6e6) / DEG;
  const ra =
    (star.raDeg + (star.pmRaCosDecMasPerYr * years) / 3.6e6 / Math.cos(star.decDeg / DEG)) / DEG;
  const earth = Engine.BaryState(Engine.Body.Earth, time);
  const c = 173.1446326846693;
  return new Engine.Vector(
    Math.cos(dec) * Math.cos(ra) + earth.vx / c,
    Math.cos(dec) * Math.sin(ra) + earth.vy / c,
    Math.sin(dec) + earth.vz / c,
    time,
  );
}
