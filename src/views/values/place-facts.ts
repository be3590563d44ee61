import type { ApparentPlace } from '../../core/sky/index.js';
import { formatAngle, formatLatitude } from '../../core/units/index.js';
import type { Facts } from './facts.js';

const turn = (degrees: number): string => formatAngle(degrees, 1, 3);

/** The place of a body as an almanac gives it, to the tenth of a minute. */
export function placeFacts(place: ApparentPlace): Facts {
  const hp = place.horizontalParallax.arcminutes;
  const sd = place.semidiameter.arcminutes;
  return {
    title: `${place.body} at ${place.instant.toString()}`,
    rows: [
      ['GHA', turn(place.gha.degrees)],
      ['Declination', formatLatitude(place.declination.degrees)],
      ['SHA', turn(place.sha.degrees)],
      ...(hp > 0 ? [['Horizontal parallax', `${hp.toFixed(hp < 1 ? 2 : 1)}′`] as const] : []),
      ...(sd > 0 ? [['Semi-diameter', `${sd.toFixed(sd < 1 ? 2 : 1)}′`] as const] : []),
      ...(place.magnitude === undefined
        ? []
        : [['Magnitude', place.magnitude.toFixed(1).replace('-', '−')] as const]),
      ...(place.phase === undefined
        ? []
        : [['Lit part of the disc', `${(100 * place.phase).toFixed(0)} %`] as const]),
      ['From', place.source],
    ],
    notes: place.notes,
  };
}
