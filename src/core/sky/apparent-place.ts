import { Angle } from '../units/angle.js';
import { formatAngle, formatLatitude } from '../units/angle-format.js';
import { EntryError } from '../units/errors.js';
import type { Instant } from '../units/instant.js';
import { body as bodyOf } from './body-text.js';
import { isSolarSystem, type BodyName } from './body-names.js';
import { appearance } from './magnitude.js';
import { ghaAriesKernel, newPlaceNumbers, placeKernel, systemLabel } from './place-kernel.js';
import { starMotion, starSource } from './stars.js';

/** Geocentric apparent place of a body, true equator and equinox of date; immutable. */
export class ApparentPlace {
  readonly body: BodyName;
  readonly instant: Instant;
  /** Greenwich hour angle, 0° to 360° westward. */
  readonly gha: Angle;
  /** North positive. */
  readonly declination: Angle;
  /** Sidereal hour angle, 0° to 360° westward from Aries; for stars and planets alike. */
  readonly sha: Angle;
  /** 0° to 360° eastward. */
  readonly rightAscension: Angle;
  /** Equatorial horizontal parallax; zero for stars. */
  readonly horizontalParallax: Angle;
  /** Geocentric semi-diameter; zero for stars. Of a planet, of the whole disc whatever its phase. */
  readonly semidiameter: Angle;
  /** From the Earth now to the body when its light left, in the frame of the solar system; absent for stars. */
  readonly distanceKm?: number;
  /** Apparent visual magnitude. */
  readonly magnitude?: number;
  /** Lit fraction of the disc, 0 to 1; absent for stars. */
  readonly phase?: number;
  /** Ephemeris or catalogue. */
  readonly source: string;
  /** What limits the place: a predicted rotation of the Earth, a span exceeded, an orbit. Whole sentences. */
  readonly notes: readonly string[];

  private constructor(body: BodyName, instant: Instant) {
    const n = placeKernel(body, instant.tt, instant.ut1, newPlaceNumbers());
    this.body = body;
    this.instant = instant;
    this.gha = Angle.degrees(n.ghaDeg);
    this.declination = Angle.degrees(n.decDeg);
    this.rightAscension = Angle.degrees(n.raDeg);
    this.sha = Angle.degrees(-n.raDeg).normalized();
    this.horizontalParallax = Angle.arcminutes(n.hpArcmin);
    this.semidiameter = Angle.arcminutes(n.sdArcmin);
    if (Number.isFinite(n.distanceKm)) this.distanceKm = n.distanceKm;
    const seen = appearance(body, instant.tt);
    if (seen.magnitude !== undefined) this.magnitude = seen.magnitude;
    if (seen.phase !== undefined) this.phase = seen.phase;
    const label = systemLabel(instant.tt);
    this.source = isSolarSystem(body) ? label : `${starSource}; Earth's motion: ${label}`;
    this.notes = Object.freeze(notesOn(body, instant, label));
    Object.freeze(this);
  }

  /** The place of a body at an instant; `apparentPlace` says how good it is. */
  static of(body: BodyName, instant: Instant): ApparentPlace {
    return new ApparentPlace(body, instant);
  }

  /** `Venus: GHA 213°45.2′, Dec 18°12.4′ N`. */
  toString(): string {
    return `${this.body}: GHA ${formatAngle(this.gha.degrees, 1, 3)}, Dec ${formatLatitude(this.declination.degrees)}`;
  }
}

/**
 * Geocentric apparent place of date: with light time, deflection by the Sun, aberration, precession and nutation.
 * Within 0.01′ (Sun, Moon, planets) and 0.005′ (stars) of JPL DE421 in 1950–2053; outside that span, or with no
 * ephemeris provided, solar-system bodies come from astronomy-engine (0.04′ to 0.34′) and a note says so.
 * @throws EntryError when there is no body of that name, or the time is not an Instant
 * @example
 * ```ts
 * import { apparentPlace, Instant } from 'cocked-hat';
 *
 * apparentPlace('Sun', Instant.utc('2027-05-11 09:42:17 UTC')).gha.toString()
 * ```
 * ```text
 * '326°28.2′'
 * ```
 */
export function apparentPlace(body: BodyName, instant: Instant): ApparentPlace {
  checkInstant(instant);
  return ApparentPlace.of(bodyOf(body), instant);
}

/** GHA of the first point of Aries, 0° to 360°: the apparent sidereal time at Greenwich. @throws EntryError when the time is not an Instant */
export function ghaAries(instant: Instant): Angle {
  checkInstant(instant);
  return Angle.degrees(ghaAriesKernel(instant.tt, instant.ut1));
}

function checkInstant(instant: Instant): void {
  // By its figures, not its class: a page and a notebook may each hold a copy of this library.
  if (!Number.isFinite(instant?.tt) || !Number.isFinite(instant?.ut1))
    throw new EntryError(
      "The time of a place is an Instant. Write Instant.utc('2027-05-11 09:42:17 UTC').",
      String(instant),
    );
}

function notesOn(body: BodyName, instant: Instant, label: string): string[] {
  const notes: string[] = [];
  if (instant.predicted)
    notes.push(`The Earth’s rotation is predicted: ${instant.earthRotationNote}.`);
  if (isSolarSystem(body) && label === 'astronomy-engine')
    notes.push(
      'No ephemeris covers this date: the place is from astronomy-engine, good to 0.04′ (Sun), 0.06′ (Moon), 0.34′ (planets).',
    );
  if (!isSolarSystem(body) && starMotion(body).binary)
    notes.push(
      'A binary star: the orbit is allowed for and the place is that of the light of the pair.',
    );
  if (body === 'Jupiter' || body === 'Saturn')
    notes.push(
      `The place is that of ${body} with its moons, within 0.003′ of the planet's centre.`,
    );
  return notes;
}
