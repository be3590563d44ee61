import { seededRandom, type Random } from '../../core/fix/random.js';
import { rhumbDestinationKernel } from '../../core/line/rhumb-kernel.js';
import type { BodyName } from '../../core/sky/index.js';
import { formatBearing, Instant } from '../../core/units/index.js';
import * as print from '../columns/print-value.js';
import { Track, type TrackPoint } from '../exchange/track.js';
import { simulateReading } from './simulate-reading.js';
import { simulatedNote, written, type SimulatedLog } from './simulated-log.js';
import type { ReadingTruth, SimulatedSlip } from './truth.js';
import { motionAt, type Leg, type Motion, type Place } from './voyage.js';
import { altitudeAt, pickBodies, sunPasses } from './twilight.js';

const ms = (text: string) => Instant.utc(text).epochMs;
const WALVIS_BAY = { latDeg: -(22 + 52 / 60), lonDeg: 14 + 24 / 60 };
const TURN = { latDeg: -(19 + 31 / 60), lonDeg: -(1 + 12 / 60) };
const ST_HELENA = { latDeg: -(15 + 55.2 / 60), lonDeg: -(5 + 43.1 / 60) };
const ASCENSION = { latDeg: -(7 + 55.5 / 60), lonDeg: -(14 + 25 / 60) };
const LEGS: readonly Leg[] = [
  {
    from: WALVIS_BAY,
    to: TURN,
    fromMs: ms('2027-05-04 05:00:00'),
    toMs: ms('2027-05-11 09:42:17'),
  },
  { from: TURN, to: ST_HELENA, fromMs: ms('2027-05-11 09:42:17'), toMs: ms('2027-05-14 16:30:00') },
  {
    from: ST_HELENA,
    to: ST_HELENA,
    fromMs: ms('2027-05-14 16:30:00'),
    toMs: ms('2027-05-15 04:00:00'),
  },
  {
    from: ST_HELENA,
    to: ASCENSION,
    fromMs: ms('2027-05-15 04:00:00'),
    toMs: ms('2027-05-20 17:00:00'),
  },
];
const BEGINS_MS = LEGS[0]?.fromMs ?? 0;
const ENDS_MS = LEGS.at(-1)?.toMs ?? 0;
const DAY_MS = 86_400_000;
const DAYS = 16;

/** The errors planted in the passage. Angles in minutes of arc; reads too high, on the arc and fast are positive. */
export const passageErrors = Object.freeze({
  observers: {
    A: { name: 'A', biasArcmin: 0.3, scatterArcmin: 0.5 },
    B: { name: 'B', biasArcmin: -0.7, scatterArcmin: 0.8 },
  },
  /** Sextant 1: its index error creeps, and nobody looks again after the first check. */
  sextant1: { indexErrorArcmin: 1.2, driftArcminPerDay: 0.09 },
  /** Sextant 2: index error steady and checked; its arc reads too high. */
  sextant2: { indexErrorArcmin: -0.6, arcErrorArcmin: 0.6 },
  /** The watch gains, and no time signal is taken. */
  watchRateSPerDay: 0.5,
  /** The horizon stands off its dip from round to round, one standard deviation. */
  dipScatterArcmin: 0.25,
  /** Scatter grows by this fraction with each step of the sea state. */
  roughnessPerSea: 0.12,
});

const SLIPS: readonly SimulatedSlip[] = [
  'ten minutes',
  'minute of time',
  'whole degree',
  'wrong limb',
];

/** A stretch of the day in which sights are taken. */
interface Session {
  readonly round: string;
  readonly fromMs: number;
  readonly bodies: readonly BodyName[];
  readonly readingsEach: number;
}

/** A passage simulated: its log, its track, and where she was at each reading. */
export interface SimulatedPassage extends SimulatedLog {
  readonly track: Track;
}

/**
 * The yawl Quillfeather from Walvis Bay by St Helena to Ascension: 16 days, 400 readings by two observers with two
 * sextants, and the track by satellite every half hour.
 * @param seed any whole number @param preamble comment lines for the head of the file
 */
export function simulatePassage(
  seed: number,
  preamble: readonly string[] = simulatedNote(seed),
): SimulatedPassage {
  const random = seededRandom(seed);
  const readings = sessions(random).flatMap((session, i) => simulateSession(session, i, random));
  plantSlips(readings, random);
  const done = readings.map((truth) => simulateReading(truth, random));
  return {
    ...written(done, preamble),
    track: trackOf(),
    planted: {
      ...passageErrors,
      slips: done.flatMap((r) =>
        r.truth.slip
          ? [{ round: r.truth.round, sight: r.truth.sight, utcMs: r.notedMs, slip: r.truth.slip }]
          : [],
      ),
    },
  };
}

const where = (utcMs: number): Place => motionAt(LEGS, utcMs);

/** Where the yawl is on her passage, and how she moves, at a time. */
export const quillfeatherAt = (utcMs: number): Motion => motionAt(LEGS, utcMs);

function sessions(random: Random): Session[] {
  const made: Session[] = [];
  for (let day = 0; day < DAYS; day++) {
    const midnight = Math.floor(BEGINS_MS / DAY_MS) * DAY_MS + day * DAY_MS;
    const date = new Date(midnight).toISOString().slice(0, 10);
    const dawn = sunPasses(-9, midnight + 2 * 3_600_000, where);
    const sunrise = sunPasses(0, dawn, where);
    const sunset = sunPasses(0, sunrise + 6 * 3_600_000, where);
    const dusk = sunPasses(-5, sunset, where);
    const noon = (sunrise + sunset) / 2;
    const stars = (at: number) => pickBodies(at, where(at), 4, random.below(12));
    if (dawn > BEGINS_MS)
      made.push({ round: `${date} dawn`, fromMs: dawn, bodies: stars(dawn), readingsEach: 2 });
    for (const at of [noon - 3 * 3_600_000, noon - 240_000, noon + 3 * 3_600_000])
      made.push({ round: `${date} Sun run`, fromMs: at, bodies: ['Sun'], readingsEach: 3 });
    made.push({ round: `${date} dusk`, fromMs: dusk, bodies: stars(dusk), readingsEach: 2 });
  }
  return made.filter((s) => s.fromMs > BEGINS_MS && s.fromMs < ENDS_MS - 3_600_000);
}

/** Observers and sextants change so that, over four sessions, each observer has used each sextant. */
function simulateSession(session: Session, index: number, random: Random): ReadingTruth[] {
  const observer = index % 2 === 0 ? passageErrors.observers.A : passageErrors.observers.B;
  const first = Math.floor(index / 2) % 2 === 0;
  const sea = Math.min(5, Math.max(2, Math.round(3.2 + 1.1 * random.normal())));
  const dipErrorArcmin = passageErrors.dipScatterArcmin * random.normal();
  const dr = drOffset(random);
  let utcMs = Math.round(session.fromMs / 1000) * 1000 + random.below(60) * 1000;
  return session.bodies.flatMap((body, b) => {
    const rows = Array.from({ length: session.readingsEach }, () => {
      utcMs += 45_000 + random.below(30) * 1000;
      const common = { session, observer, sextant1: first, sea, dipErrorArcmin, dr };
      return truthAt(utcMs, body, `${index + 1}.${b + 1}`, common);
    });
    utcMs += 90_000 + random.below(60) * 1000;
    return rows;
  });
}

interface Common {
  readonly session: Session;
  readonly observer: ReadingTruth['observer'];
  readonly sextant1: boolean;
  readonly sea: number;
  readonly dipErrorArcmin: number;
  readonly dr: { readonly courseDeg: number; readonly distanceM: number };
}

function truthAt(utcMs: number, body: BodyName, sight: string, common: Common): ReadingTruth {
  const days = (utcMs - BEGINS_MS) / DAY_MS;
  const motion = motionAt(LEGS, utcMs);
  const { sextant1: one, sea } = common;
  const { sextant1, sextant2 } = passageErrors;
  const { courseDeg, distanceM } = common.dr;
  const dr = rhumbDestinationKernel(motion.latDeg, motion.lonDeg, courseDeg, distanceM);
  const moving = motion.speedKn > 0.1;
  return {
    round: common.session.round,
    sight,
    utcMs,
    body,
    limb: body === 'Sun' || body === 'Moon' ? 'lower' : 'centre',
    latDeg: motion.latDeg,
    lonDeg: motion.lonDeg,
    observer: common.observer,
    instrument: one ? 'sextant 1' : 'sextant 2',
    indexErrorArcmin: one
      ? sextant1.indexErrorArcmin + sextant1.driftArcminPerDay * days
      : sextant2.indexErrorArcmin,
    arcErrorArcmin: one ? 0 : sextant2.arcErrorArcmin,
    horizon: 'natural',
    eyeHeightM: 2.6,
    dipErrorArcmin: common.dipErrorArcmin,
    temperatureC: Math.round(19 + days / 3),
    pressureHpa: 1016,
    clockErrorS: passageErrors.watchRateSPerDay * days,
    roughness: 1 + passageErrors.roughnessPerSea * (sea - 2),
    noted: {
      indexError: print.indexError(one ? sextant1.indexErrorArcmin : sextant2.indexErrorArcmin),
      positionKind: 'DR',
      latDeg: dr.latDeg,
      lonDeg: dr.lonDeg,
      ...(moving
        ? { course: formatBearing(motion.courseDeg), speed: motion.speedKn.toFixed(1) }
        : {}),
      sea: String(sea),
    },
  };
}

/** How far the dead reckoning is out: some miles in any direction. */
function drOffset(random: Random): { courseDeg: number; distanceM: number } {
  const [north, east] = [2.5 * random.normal(), 2.5 * random.normal()];
  return {
    courseDeg: ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360,
    distanceM: Math.hypot(north, east) * 1852,
  };
}

/** One slip in each quarter of the passage, and two readings that the observer did not trust. */
function plantSlips(readings: ReadingTruth[], random: Random): void {
  const quarter = Math.floor(readings.length / SLIPS.length);
  SLIPS.forEach((slip, i) => {
    let at: number;
    do at = i * quarter + random.below(quarter);
    while (!canSlip(readings[at] as ReadingTruth, slip));
    readings[at] = { ...(readings[at] as ReadingTruth), slip };
  });
  for (const at of [Math.floor(quarter / 3), Math.floor(2.6 * quarter)]) {
    const row = readings[at];
    const noted = { accepted: 'no', reason: 'horizon lost in haze' } as const;
    if (row && !row.slip) readings[at] = { ...row, noted: { ...row.noted, ...noted } };
  }
}

/** A star has no other limb, and near the meridian a minute of time is nothing. */
function canSlip(row: ReadingTruth, slip: SimulatedSlip): boolean {
  if (slip === 'wrong limb') return row.body === 'Sun';
  if (slip !== 'minute of time') return true;
  const { azDeg } = altitudeAt(row.body, row.utcMs, row);
  return Math.abs(Math.sin((azDeg * Math.PI) / 180)) > 0.6;
}

function trackOf(): Track {
  const points: TrackPoint[] = [];
  for (let utcMs = BEGINS_MS; utcMs <= ENDS_MS; utcMs += 1_800_000) {
    const { latDeg, lonDeg } = motionAt(LEGS, utcMs);
    const round = (deg: number) => Math.round(deg * 1e6) / 1e6;
    points.push({ utcMs, latDeg: round(latDeg), lonDeg: round(lonDeg) });
  }
  return new Track(points, 'Quillfeather');
}
