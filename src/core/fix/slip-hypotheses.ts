import { altitudeStagesKernel, type AltitudeInput } from '../sextant/altitude-kernel.js';
import { dipKernel } from '../sextant/dip-kernel.js';
import { altitudeInputOf, sightPlace } from '../sextant/sight-stages.js';
import type { Sight } from '../sextant/sight.js';
import { apparentPlace } from '../sky/apparent-place.js';
import { bodyNames, isSolarSystem, type BodyName } from '../sky/body-names.js';
import type { Instant } from '../units/instant.js';
import { Duration } from '../units/scalar.js';
import { altitudeKernel } from '../line/altitude-kernel.js';
import type { SlipKind } from './slip-kinds.js';

/** What the sight would be if one slip, made, were undone. */
export interface SlipHypothesis {
  readonly kind: SlipKind;
  /** The particular: `1° more`, `Rigel`. */
  readonly detail: string;
  /** To be added to the altitude as worked, minutes of arc. */
  readonly altitudeArcmin: number;
  /** Place of the body then. */
  readonly ghaDeg: number;
  readonly decDeg: number;
  /** Made in the working rather than in the entries, whatever the rule of its kind says. */
  readonly inWorking?: true;
  /** The position to compute for has the other name. */
  readonly mirror?: 'latitude' | 'longitude';
}

const METRES_PER_FOOT = 0.3048;
const NEIGHBOUR_DEG = 20;
const BRIGHTEST_PLANETS: ReadonlySet<string> = new Set(['Venus', 'Mars', 'Jupiter', 'Saturn']);

/**
 * Every slip that could have been made with this sight, each undone.
 * @param lonDeg longitude for the zone, east positive; undefined leaves the zone out
 */
export function slipHypotheses(sight: Sight, lonDeg: number | undefined): SlipHypothesis[] {
  const place = sightPlace(sight);
  const input = altitudeInputOf(sight, place);
  const s = altitudeStagesKernel(input);
  const base = { ghaDeg: place.gha.degrees, decDeg: place.declination.degrees };
  const same = (kind: SlipKind, detail: string, altitudeArcmin: number): SlipHypothesis => ({
    kind,
    detail,
    altitudeArcmin,
    ...base,
  });
  const recomputed = (change: Partial<AltitudeInput>) =>
    (altitudeStagesKernel({ ...input, ...change }).observedDeg - s.observedDeg) * 60;
  const out: SlipHypothesis[] = [];
  const add = (h: SlipHypothesis) => {
    if (Number.isFinite(h.altitudeArcmin)) out.push(h);
  };

  if (input.limb !== 0)
    add(
      same(
        'wrong limb',
        input.limb < 0 ? 'upper limb' : 'lower limb',
        recomputed({ limb: -input.limb as -1 | 1 }),
      ),
    );
  if (input.indexErrorArcmin !== 0) {
    const twice = recomputed({ indexErrorArcmin: -input.indexErrorArcmin });
    add(same('index sign', 'noted with the other sign', twice));
    add({ ...same('index sign', 'applied with the other sign', -twice), inWorking: true });
  }
  for (const [kind, minutes] of READINGS)
    for (const sign of [1, -1]) {
      const detail = `${minutes === 60 ? '1°' : `${minutes}′`} ${sign > 0 ? 'more' : 'less'}`;
      add(same(kind, detail, recomputed({ readingDeg: input.readingDeg + (sign * minutes) / 60 })));
    }
  if (input.horizon === 'natural') {
    add(same('dip forgotten', 'dip applied', s.dipArcmin));
    const used = dipKernel(input.eyeHeightM);
    for (const [factor, detail] of UNITS) {
      const other = dipKernel(input.eyeHeightM * factor);
      add(same('height unit', `${detail}, in the entry`, used - other));
      add({ ...same('height unit', `${detail}, in the working`, other - used), inWorking: true });
    }
    if (input.readingDeg > 10)
      add(
        same('not halved', 'it was an artificial horizon', recomputed({ horizon: 'artificial' })),
      );
  }
  if (input.horizon === 'artificial')
    add({ ...same('not halved', 'halved', -s.angleDeg * 60), inWorking: true });
  add(same('refraction forgotten', 'refraction applied', s.refractionArcmin));
  if (sight.body === 'Moon')
    add(same('parallax forgotten', 'parallax applied', s.parallaxArcmin + s.figureArcmin));
  if (!sight.place) {
    for (const [kind, hours, detail] of times(lonDeg)) {
      const moved = moveTime(sight.instant, hours);
      const there = apparentPlace(sight.body, moved);
      add({
        kind,
        detail,
        altitudeArcmin: recomputed({
          sdArcmin: there.semidiameter.arcminutes,
          hpArcmin: there.horizontalParallax.arcminutes,
        }),
        ghaDeg: there.gha.degrees,
        decDeg: there.declination.degrees,
      });
    }
    otherNames(sight).forEach(add);
  }
  add({ ...same('latitude name', 'the other name', 0), mirror: 'latitude' });
  add({ ...same('longitude name', 'the other name', 0), mirror: 'longitude' });
  return out;
}

const READINGS: readonly (readonly [SlipKind, number])[] = [
  ['whole degree', 60],
  ['ten minutes', 10],
  ['thirty minutes', 30],
];
const UNITS: readonly (readonly [number, string])[] = [
  [METRES_PER_FOOT, 'feet taken for metres'],
  [1 / METRES_PER_FOOT, 'metres taken for feet'],
];

/** Hours to add to the noted time. */
function times(lonDeg: number | undefined): (readonly [SlipKind, number, string])[] {
  const both = (kind: SlipKind, hours: number, what: string) =>
    [1, -1].map(
      (sign) => [kind, sign * hours, `${what} ${sign > 0 ? 'later' : 'earlier'}`] as const,
    );
  const zone = lonDeg === undefined ? 0 : Math.round(lonDeg / 15);
  return [
    ...both('minute of time', 1 / 60, '1 minute'),
    ...both('hour of time', 1, '1 hour'),
    ...both('twelve hours', 12, '12 hours'),
    ...both('date', 24, '1 day'),
    // Zone time is ahead in the east: UTC = zone time − zone. With the wrong sign the noted UTC is 2 × zone too great.
    ...(zone === 0
      ? []
      : [
          [
            'zone sign',
            -2 * zone,
            `${Math.abs(2 * zone)} hours ${zone > 0 ? 'earlier' : 'later'}`,
          ] as const,
        ]),
  ];
}

const moveTime = (t: Instant, hours: number): Instant => t.plus(Duration.hours(hours));

/** The sight under every other name that could have been meant; none where the place of the body was given. */
export const otherNames = (sight: Sight): SlipHypothesis[] =>
  sight.place
    ? []
    : otherBodies(sight.body, sight.instant).map(({ name, distanceDeg, ...there }) => ({
        kind: distanceDeg < NEIGHBOUR_DEG ? 'another star' : 'body misnamed',
        detail: name,
        altitudeArcmin: 0,
        ...there,
      }));

interface OtherBody {
  readonly name: BodyName;
  /** How far from the one noted it stands on the sky. */
  readonly distanceDeg: number;
  readonly ghaDeg: number;
  readonly decDeg: number;
}

/** Bodies that could have been meant: stars and bright planets for a star or planet, none for Sun and Moon. */
function otherBodies(body: BodyName, instant: Instant): OtherBody[] {
  if (body === 'Sun' || body === 'Moon') return [];
  const here = apparentPlace(body, instant);
  const others = bodyNames.filter(
    (name) => name !== body && (!isSolarSystem(name) || BRIGHTEST_PLANETS.has(name)),
  );
  return others.map((name) => {
    const there = apparentPlace(name, instant);
    const [ghaDeg, decDeg] = [there.gha.degrees, there.declination.degrees];
    // Seen from under one body, the other's zenith distance is their separation.
    const { altDeg } = altitudeKernel(here.declination.degrees, -here.gha.degrees, ghaDeg, decDeg);
    return { name, distanceDeg: 90 - altDeg, ghaDeg, decDeg };
  });
}
