import geodesicPackage from 'geographiclib-geodesic';
import proj4 from 'proj4';
import { expect, test } from 'vitest';
import {
  latitudeMinuteM,
  latitudeOf,
  longitudeMinuteM,
  meridionalParts,
} from '../../src/views/chart/mercator.js';

const LATITUDES = [-80, -60, -45, -18.7, -1, 0, 0.5, 15.9, 33, 52.5, 70, 84];

test('meridional parts agree with proj4 2.x (npm, EPSG:3395 World Mercator on WGS 84) to a ten-thousandth of a minute', () => {
  const METRES_PER_MINUTE = (6378137 * Math.PI) / 180 / 60;
  for (const lat of LATITUDES) {
    const [, y] = proj4('EPSG:4326', '+proj=merc +ellps=WGS84 +units=m', [0, lat]);
    // proj4 iterates to 1e-10 rad, 6 mm or 3e-7′; the tolerance leaves room for that and for rounding.
    expect(meridionalParts(lat)).toBeCloseTo((y ?? NaN) / METRES_PER_MINUTE, 4);
  }
});

test('the latitude comes back from its meridional parts to a billionth of a degree', () => {
  for (const lat of LATITUDES) expect(latitudeOf(meridionalParts(lat))).toBeCloseTo(lat, 9);
});

test('a minute of latitude and of longitude is as long as geographiclib-geodesic 2.x (npm) measures it', () => {
  const geod = geodesicPackage.Geodesic.WGS84;
  for (const lat of LATITUDES.filter((l) => Math.abs(l) < 84)) {
    const north = geod.Inverse(lat - 1 / 120, 0, lat + 1 / 120, 0).s12 ?? NaN;
    // The geodesic across a minute of longitude is shorter than the parallel by less than 0.1 mm below 80°.
    const east = geod.Inverse(lat, 0, lat, 1 / 60).s12 ?? NaN;
    expect(latitudeMinuteM(lat)).toBeCloseTo(north, 3);
    expect(longitudeMinuteM(lat)).toBeCloseTo(east, 3);
  }
});
