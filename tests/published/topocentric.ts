import { AU_KM, EARTH_RADIUS_KM, ghaAries, placeKernel, newPlaceNumbers } from 'cocked-hat';
import type { BodyName, Instant } from 'cocked-hat';

const DEG = Math.PI / 180;
/** WGS 84: 1 − f² squared ratio of the axes. */
const AXES_SQUARED = (1 - 1 / 298.257223563) ** 2;
const STAR_KM = 1e9 * AU_KM;
/** Speed of the equator over the speed of light: diurnal aberration is 0.32″. */
const EQUATOR_SPEED = 0.4651 / 299792.458;

export interface Topocentric {
  readonly raDeg: number;
  readonly decDeg: number;
  /** Airless altitude above the geodetic horizon and azimuth from north. */
  readonly altDeg: number;
  readonly azDeg: number;
}

/**
 * Place as seen from the ellipsoid, without air: the geocentric apparent place less the observer's vector
 * (Explanatory Supplement 2013, sec. 7.1), with diurnal aberration. For checks only.
 * @param lonDeg east positive
 */
export function topocentric(
  body: BodyName,
  instant: Instant,
  latDeg: number,
  lonDeg: number,
  heightKm = 0,
): Topocentric {
  const p = placeKernel(body, instant.tt, instant.ut1, newPlaceNumbers());
  return fromGeocentric(
    p.raDeg,
    p.decDeg,
    p.distanceKm,
    ghaAries(instant).degrees + lonDeg,
    latDeg,
    heightKm,
  );
}

/** The same from a given geocentric place. @param siderealDeg local apparent sidereal time */
export function fromGeocentric(
  raDeg: number,
  decDeg: number,
  distanceKm: number,
  siderealDeg: number,
  latDeg: number,
  heightKm: number,
): Topocentric {
  const distance = Math.min(distanceKm, STAR_KM);
  const [sl, cl] = [Math.sin(latDeg * DEG), Math.cos(latDeg * DEG)];
  const c = 1 / Math.sqrt(cl * cl + AXES_SQUARED * sl * sl);
  const rho = (EARTH_RADIUS_KM * c + heightKm) * cl;
  const z0 = (EARTH_RADIUS_KM * c * AXES_SQUARED + heightKm) * sl;
  const [st, ct] = [Math.sin(siderealDeg * DEG), Math.cos(siderealDeg * DEG)];
  const cd = Math.cos(decDeg * DEG) * distance;
  const x = cd * Math.cos(raDeg * DEG) - rho * ct;
  const y = cd * Math.sin(raDeg * DEG) - rho * st;
  const z = Math.sin(decDeg * DEG) * distance - z0;
  // Towards the meridian, the east and the pole; then the zenith.
  const seen = Math.hypot(x, y, z) * EQUATOR_SPEED * (rho / EARTH_RADIUS_KM);
  const [xs, ys] = [x - seen * st, y + seen * ct];
  const [meridian, east] = [xs * ct + ys * st, -xs * st + ys * ct];
  const [up, north] = [meridian * cl + z * sl, -meridian * sl + z * cl];
  const turn = (rad: number) => (((rad / DEG) % 360) + 360) % 360;
  return {
    raDeg: turn(Math.atan2(ys, xs)),
    decDeg: Math.atan2(z, Math.hypot(xs, ys)) / DEG,
    altDeg: Math.atan2(up, Math.hypot(east, north)) / DEG,
    azDeg: turn(Math.atan2(east, north)),
  };
}
