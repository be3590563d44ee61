import * as Engine from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import {
  indexCheck,
  noonLatitude,
  passageToJudge,
  runningFix,
  starRound,
  sunAltitude,
} from '../../src/exercises/index.js';
import type { Instant, Position, Sight } from '../../src/index.js';
import { stagesOf } from '../../src/index.js';

const STUDENTS = Array.from({ length: 60 }, (_, i) => `Student ${i}`);

/** Altitude of the Sun by npm astronomy-engine 2.1.19, without refraction, degrees: a second opinion on the sky. */
function sunAltitudeByEngine(instant: Instant, at: Position): number {
  const time = new Engine.AstroTime(new Date(instant.epochMs));
  const observer = new Engine.Observer(at.latDeg, at.lonDeg, 0);
  const { ra, dec } = Engine.Equator(Engine.Body.Sun, time, observer, true, true);
  return Engine.Horizon(time, observer, ra, dec).altitude;
}
const where = (s: Sight): Position => s.dr as Position;
const altitude = (s: Sight) => stagesOf(s).stages.observedDeg;

describe('the numbers drawn for each student', () => {
  it('put the Sun 15° to 70° up, as a second library finds it too', () => {
    for (const student of STUDENTS) {
      const { sight } = sunAltitude({ student }).given;
      expect(altitude(sight)).toBeGreaterThan(15);
      expect(altitude(sight)).toBeLessThan(70);
      // The DR is up to 15 miles out and the engine's parallax is in: 0.3° covers both.
      expect(
        Math.abs(sunAltitudeByEngine(sight.instant, where(sight)) - altitude(sight)),
      ).toBeLessThan(0.3);
    }
  });
  it('put the noon sight on the meridian, at the greatest altitude of the day', () => {
    for (const student of STUDENTS) {
      const { sight } = noonLatitude({ student }).given;
      const at = where(sight);
      const [before, noon, after] = [-1200, 0, 1200].map((s) =>
        sunAltitudeByEngine(sight.instant.plus({ seconds: s } as never), at),
      ) as [number, number, number];
      expect(noon).toBeGreaterThan(before);
      expect(noon).toBeGreaterThan(after);
    }
  });
  it('take stars while the horizon shows: the Sun 4° to 12° down', () => {
    for (const student of STUDENTS) {
      const { sights } = starRound({ student }).given;
      for (const sight of sights) {
        const sun = sunAltitudeByEngine(sight.instant, where(sight));
        expect(sun).toBeGreaterThan(-12);
        expect(sun).toBeLessThan(-4);
        expect(altitude(sight)).toBeGreaterThan(14);
        expect(altitude(sight)).toBeLessThan(71);
      }
      expect(new Set(sights.map((s) => s.body)).size).toBe(3);
    }
  });
  it('run the Sun far enough round for two lines to cross by 40°', () => {
    for (const student of STUDENTS) {
      const q = runningFix({ student });
      const figures = q.expected();
      const [a, b] = ['zn1', 'zn2'].map((id) => (figures.get(id) as { degrees: number }).degrees);
      const apart = Math.abs((a ?? 0) - (b ?? 0)) % 180;
      expect(Math.min(apart, 180 - apart)).toBeGreaterThan(38);
    }
  });
  it('are the same for the same student and differ between students', () => {
    for (const kind of [
      indexCheck,
      sunAltitude,
      noonLatitude,
      starRound,
      runningFix,
      passageToJudge,
    ]) {
      const printed = (student: string) => {
        const { printed: given, table } = kind({ student });
        return JSON.stringify([given, table]);
      };
      expect(printed('Ana Lima')).toBe(printed('ana lima'));
      expect(new Set(STUDENTS.map(printed)).size).toBe(STUDENTS.length);
    }
  });
});
