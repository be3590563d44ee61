import { circleCrossings, offset } from '../fix/sphere.js';
import { placeOfSight, type Leg } from '../fix/altitude-model.js';
import { Fix } from '../fix/fix-result.js';
import { fix } from '../fix/fix.js';
import type { FixOptions } from '../fix/fix-options.js';
import {
  label,
  observationOf,
  type AltitudeObservation,
  type Observed,
} from '../line/observation.js';
import { computedAltitude } from '../line/computed-altitude.js';
import { rhumbBetween } from '../line/rhumb.js';
import { Angle } from '../units/angle.js';
import { formatBearing, formatCorrection } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import { Position } from '../units/position.js';
import { Uncertainty, Working } from '../working/working.js';
import { methodStep } from './method-step.js';

/**
 * Position from two altitudes by the triangles themselves (double altitudes), without an assumed position: the first
 * altitude is reduced to the place of the second for the run, the two circles cross, and the crossing nearer the DR is
 * taken. The uncertainty is that of the least-squares fix of the same two sights, the radial standard deviation, nautical miles.
 * @throws OutOfRangeError when the circles do not meet, or without a DR
 */
export function doubleAltitudes(
  first: Observed,
  second: Observed,
  options: FixOptions = {},
): Working<Position> {
  const [a, b] = [observationOf(first), observationOf(second)];
  const f = fix([a, b], { ...options, at: b.instant });
  const dr = f.dr;
  if (!dr) throw new OutOfRangeError('two circles cross twice: a DR must say where, { dr }');
  const legs = Fix.partsOf(f).rows[0]?.legs ?? [];
  let near = dr;
  let pass = crossingNear(a, b, near, legs);
  // The run turns a little with the place it is laid off from: once more from the crossing found.
  for (let i = 0; i < 4 && pass.found; i++) {
    const next = Position.degrees(pass.found.latDeg, pass.found.lonDeg);
    if (milesBetween(near, next) < 0.001) break;
    near = next;
    pass = crossingNear(a, b, near, legs);
  }
  const { circles, found, other, change, reduced, from } = pass;
  if (!found || !other)
    throw new OutOfRangeError(
      `the circles of ${label(a)} and ${label(b)} do not meet: an altitude, a time or a body is wrong`,
    );
  const apart =
    90 -
    computedAltitude(Position.degrees(circles[0].latDeg, circles[0].lonDeg), b.gha, b.declination)
      .altitude.degrees;
  const c = f.covariance;
  const position = Position.degrees(found.latDeg, found.lonDeg);
  const ran = legs.length > 0 ? rhumbBetween(from, near) : null;
  const miles = ran ? ran.distance.nauticalMiles : 0;
  const azimuth = computedAltitude(from, a.gha, a.declination).azimuth;
  return new Working<Position>(
    `Double altitudes: ${label(a)} and ${label(b)}`,
    [
      methodStep({
        rule: 'run',
        title: 'First altitude at the second place',
        kind: 'correction',
        plain: 'altitude + change by the run (run × cos of the angle between course and azimuth)',
        figures:
          ran && miles > 0.01
            ? `${miles.toFixed(1)} nm on ${formatBearing(ran.course.degrees)}, azimuth ${formatBearing(azimuth.degrees)}: ${formatCorrection(change.arcminutes)}`
            : 'no run',
        correction: change,
        result: reduced,
      }),
      methodStep({
        rule: 'distance of the bodies',
        title: 'Distance between the geographical positions',
        plain: 'cos D = sin d₁ sin d₂ + cos d₁ cos d₂ cos ΔGHA',
        figures: `ΔGHA ${b.gha.minus(a.gha).signed().abs().toString()}`,
        result: Angle.degrees(apart),
      }),
      methodStep({
        rule: 'crossing',
        title: 'Crossing nearer the DR',
        plain: 'where both zenith distances hold',
        figures: `zenith distances ${Angle.degrees(circles[0].zenithDeg).toString()} and ${Angle.degrees(circles[1].zenithDeg).toString()}; the other crossing ${Position.degrees(other.latDeg, other.lonDeg).toString()}`,
        result: position,
      }),
    ],
    f.flags.map(String),
    new Uncertainty(
      c
        ? [
            {
              cause: 'altitudes and run',
              sigmaArcmin: Math.sqrt((c[0]?.[0] ?? 0) + (c[1]?.[1] ?? 0)),
            },
          ]
        : [],
    ),
  );
}

const milesBetween = (p: Position, q: { latDeg: number; lonDeg: number }): number => {
  const o = offset(p.latDeg, p.lonDeg, q.latDeg, q.lonDeg);
  return Math.hypot(o.northArcmin, o.eastArcmin);
};

/** Both circles with the run laid off back from `near`, and their crossings, the nearer first. */
function crossingNear(
  a: AltitudeObservation,
  b: AltitudeObservation,
  near: Position,
  legs: readonly Leg[],
) {
  const p = placeOfSight(near.latDeg, near.lonDeg, legs);
  const from = Position.degrees(p.latDeg, p.lonDeg);
  // The altitude where the vessel was later: it grew by the run toward the body.
  const change = computedAltitude(near, a.gha, a.declination).altitude.minus(
    computedAltitude(from, a.gha, a.declination).altitude,
  );
  const reduced = a.observed.plus(change);
  const circles = [
    { latDeg: a.declination.degrees, lonDeg: -a.gha.degrees, zenithDeg: 90 - reduced.degrees },
    { latDeg: b.declination.degrees, lonDeg: -b.gha.degrees, zenithDeg: 90 - b.observed.degrees },
  ] as const;
  const [found, other] = circleCrossings(circles[0], circles[1]).sort(
    (x, y) => milesBetween(near, x) - milesBetween(near, y),
  );
  return { circles, found, other, change, reduced, from };
}
