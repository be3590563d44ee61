import {
  angle,
  Angle,
  apparentPlace,
  compassByAmplitude,
  compassByAzimuth,
  computedAltitude,
  dayWork,
  dip,
  doubleAltitudes,
  Duration,
  exMeridian,
  indexCorrection,
  Instant,
  isSolarSystem,
  Length,
  longitudeByEqualAltitudes,
  lunarDistance,
  meridianAltitude,
  meridianMaximum,
  meridianPassage,
  OutOfRangeError,
  position,
  Position,
  rhumbDestination,
  riseSet,
  seededRandom,
  setAndDrift,
  sight,
  sightRun,
  Speed,
  timeSight,
  type AltitudeObservation,
  type BodyName,
} from 'cocked-hat';
import { describe, expect, test } from 'vitest';

const DAY = Instant.utc('2027-05-11 00:00:00 UTC');
const deg = (x: number) => Angle.degrees(x);
const miles = (x: number) => Length.nauticalMiles(x);

/** The altitude a body truly has at a place and time. */
function seen(
  body: BodyName,
  here: Position,
  instant: Instant,
  errorArcmin = 0,
): AltitudeObservation {
  const { gha, declination } = apparentPlace(body, instant);
  const { altitude } = computedAltitude(here, gha, declination);
  return {
    body,
    instant,
    observed: altitude.plus(Angle.arcminutes(errorArcmin)),
    gha,
    declination,
    causes: [{ cause: 'observer', sigmaArcmin: 0.7 }],
    dr: here,
  };
}
const latitudes = [-55, -19.5, 3, 17.2, 41, 60];

describe('meridian altitude', () => {
  test.each(latitudes)('upper transit gives the latitude back, at %f', (lat) => {
    const here = Position.degrees(lat, -20);
    const noon = meridianPassage('Sun', here, DAY).upper[0] as Instant;
    const w = meridianAltitude(seen('Sun', here, noon));
    expect(w.value.minus(here.latitude).abs().arcseconds).toBeLessThan(0.1);
    expect(w.uncertainty.sigma.arcminutes).toBeCloseTo(0.7, 9);
    expect(w.flags).toEqual([]);
  });
  test.each([
    ['Dubhe', 55],
    ['Acrux', -50],
    ['Polaris', 40],
  ] as const)('lower transit of %s at %i', (star, lat) => {
    const here = Position.degrees(lat, 30);
    const at = meridianPassage(star, here, DAY, { span: Duration.hours(25) }).lower[0] as Instant;
    const w = meridianAltitude(seen(star, here, at), { transit: 'lower' });
    expect(w.value.minus(here.latitude).abs().arcseconds).toBeLessThan(0.1);
  });
  test.each([
    [-19.5, 0],
    [-19.5, 180],
    [45, 0],
    [45, 180],
    [52, 40],
  ])(
    'a moving vessel’s greatest altitude is brought to the meridian, at %f on %i',
    (lat, course) => {
      // Sail past the place of noon at 18 knots and find the greatest altitude by looking every second.
      const here = Position.degrees(lat, -20);
      const noon = meridianPassage('Sun', here, DAY).upper[0] as Instant;
      const at = (s: number) =>
        seen(
          'Sun',
          rhumbDestination(here, deg(course), miles((18 * s) / 3600)),
          noon.plus(Duration.seconds(s)),
        );
      let best = at(-900);
      let bestS = -900;
      for (let s = -900; s <= 900; s += 2) {
        const o = at(s);
        if (o.observed.degrees > best.observed.degrees) [best, bestS] = [o, s];
      }
      const options = {
        dr: here,
        taken: 'maximum',
        course: deg(course),
        speed: Speed.knots(18),
      } as const;
      const w = meridianAltitude(best, options);
      // The latitude is that of transit, where the vessel was at noon, to second order in the minutes from it.
      expect(Math.abs(w.value.minus(here.latitude).arcminutes)).toBeLessThan(0.1);
      const { gha: _g, declination } = apparentPlace('Sun', noon);
      void _g;
      const rate =
        apparentPlace('Sun', noon.plus(Duration.minutes(30))).declination.minus(declination)
          .arcminutes / 30;
      const m = meridianMaximum(lat, declination.degrees, rate, 18 * Math.cos(deg(course).radians));
      // Easting carries the meridian along: 18 knots on 040° shift the time by more; only northerly courses compare.
      if (course % 180 === 0) expect(Math.abs(m.interval.seconds - bestS)).toBeLessThan(6);
    },
  );
  test('off the meridian it says so', () => {
    const here = Position.degrees(-19.5, -20);
    const noon = meridianPassage('Sun', here, DAY).upper[0] as Instant;
    expect(meridianAltitude(seen('Sun', here, noon.plus(Duration.minutes(40)))).flags[0]).toMatch(
      /40 minutes of time past the meridian.*position line/,
    );
  });
  test.each([
    [5, 'past'],
    [-5, 'before'],
    [2, 'past'],
  ] as const)(
    'taken %i minutes from transit it says by how much it is out, %s',
    (minutes, side) => {
      const here = Position.degrees(17.5, -20);
      const noon = meridianPassage('Sun', here, Instant.utc('2027-02-10 00:00:00 UTC'))
        .upper[0] as Instant;
      const o = seen('Sun', here, noon.plus(Duration.minutes(minutes)));
      const flag = meridianAltitude(o).flags[0] ?? '';
      expect(flag).toMatch(`Not at transit: `);
      expect(flag).toMatch(`${Math.abs(minutes)}.0 minutes of time ${side} the meridian by the DR`);
      expect(flag).toMatch('exMeridian()');
      // a t², a = 1.9635″ cos L cos d / sin(L − d): Bowditch tables 24 and 25 (fetched); both are printed to 0.1′.
      const rad = Math.PI / 180;
      const d = o.declination.degrees;
      const a = (1.9635 * Math.cos(17.5 * rad) * Math.cos(d * rad)) / Math.sin((17.5 - d) * rad);
      const told = Number(/stands (\d+\.\d)′ below/.exec(flag)?.[1]);
      expect(Math.abs(told - (a * minutes ** 2) / 60)).toBeLessThan(0.06);
      expect(meridianAltitude(o, { taken: 'maximum' }).flags).toEqual([]);
      // A greatest altitude is timed loosely, but not by eleven minutes.
      const late = seen('Sun', here, noon.plus(Duration.minutes(11)));
      expect(meridianAltitude(late, { taken: 'maximum' }).flags[0]).toMatch(
        /11 minutes of time past the meridian.*if time and DR are right/,
      );
    },
  );
  test('so near transit that the drum does not show it, it says nothing', () => {
    const here = Position.degrees(17.5, -20);
    const noon = meridianPassage('Sun', here, DAY).upper[0] as Instant;
    const mostly = meridianAltitude(seen('Polaris', here, noon), { transit: 'lower' });
    expect(mostly.flags[0]).toMatch(/above its altitude on it.*position line/);
    const winter = meridianPassage('Sun', here, Instant.utc('2027-02-10 00:00:00 UTC'))
      .upper[0] as Instant;
    expect(meridianAltitude(seen('Sun', here, winter.plus(Duration.seconds(40)))).flags).toEqual(
      [],
    );
  });
  test('through the zenith a parabola does not hold, and that is refused', () => {
    expect(() => meridianMaximum(17.5, 18, 0.01, 5)).toThrow(OutOfRangeError);
  });
});

describe('ex-meridian and time sight', () => {
  test.each(latitudes)('the triangle gives the latitude back at any hour angle, at %f', (lat) => {
    const here = Position.degrees(lat, -20);
    const noon = meridianPassage('Sun', here, DAY).upper[0] as Instant;
    for (const minutes of [-60, -20, 5, 24]) {
      const o = seen('Sun', here, noon.plus(Duration.minutes(minutes)));
      const w = exMeridian(o);
      if (Math.abs(lat - 17.9) > 12)
        expect(w.value.minus(here.latitude).abs().arcseconds).toBeLessThan(0.1);
      expect(w.flags.length > 0).toBe(Math.abs(minutes) > 26);
      if (Math.abs(minutes) <= 24 && Math.abs(lat - 17.9) > 30) {
        const factor = w.step('factor').result as Angle;
        const meridian = 90 - Math.abs(lat - o.declination.degrees);
        // The next term of the series, t⁴, is 0.1′ at 24 minutes where the zenith distance is over 30°.
        expect(Math.abs(factor.degrees - meridian) * 60).toBeLessThan(0.3);
      }
    }
  });
  test.each(latitudes)(
    'a time sight gives the longitude back, east and west of the meridian, at %f',
    (lat) => {
      const here = Position.degrees(lat, -20);
      const noon = meridianPassage('Sun', here, DAY).upper[0] as Instant;
      for (const hours of [-3.5, 3]) {
        const w = timeSight(seen('Sun', here, noon.plus(Duration.hours(hours))));
        expect(w.value.minus(here.longitude).signed().abs().arcseconds).toBeLessThan(0.1);
      }
    },
  );
  test('its uncertainty is what moving the altitude and the latitude does', () => {
    const here = Position.degrees(-19.5, -20);
    const noon = meridianPassage('Sun', here, DAY).upper[0] as Instant;
    const at = noon.plus(Duration.hours(3));
    const w = timeSight(seen('Sun', here, at), { latitudeSigma: Angle.arcminutes(4) });
    const higher = timeSight(seen('Sun', here, at, 0.7)).value.minus(here.longitude).arcminutes;
    const north = timeSight({
      ...seen('Sun', here, at),
      dr: Position.degrees(-19.5 + 4 / 60, -20),
    }).value.minus(here.longitude).arcminutes;
    expect(w.uncertainty.sigma.arcminutes).toBeCloseTo(Math.hypot(higher, north), 1);
  });
  test('an altitude that cannot be is refused with what to check', () => {
    const here = Position.degrees(60, -20);
    expect(() => timeSight({ ...seen('Sun', here, DAY), observed: deg(70) })).toThrow(
      /check latitude, altitude and body/,
    );
    expect(() => exMeridian({ ...seen('Sun', here, DAY), observed: deg(89.9) })).toThrow(
      /no latitude gives/,
    );
  });
});

describe('equal altitudes', () => {
  test.each([
    [-19.5, 3],
    [48, 2.5],
    [30, 4],
  ])('longitude from a Sun of equal altitudes, at %f, %f hours', (lat, hours) => {
    const here = Position.degrees(lat, -20);
    const noon = meridianPassage('Sun', here, DAY).upper[0] as Instant;
    const rising = noon.plus(Duration.hours(-hours));
    const goal = seen('Sun', here, rising).observed.degrees;
    let [a, b] = [noon, noon.plus(Duration.hours(hours + 0.5))];
    for (let i = 0; i < 40; i++) {
      const m = a.plus(Duration.seconds(b.minus(a).seconds / 2));
      if (seen('Sun', here, m).observed.degrees > goal) a = m;
      else b = m;
    }
    const w = longitudeByEqualAltitudes({ body: 'Sun', rising, falling: a, dr: here });
    // The equation takes a steady change of declination: good to a tenth of a second of time, 0.03′.
    expect(Math.abs(w.value.minus(here.longitude).arcminutes)).toBeLessThan(0.03);
    expect(
      Math.abs((w.step('equation of equal altitudes').result as Duration).seconds),
    ).toBeGreaterThan(2);
  });
  test('northing between the two is allowed for', () => {
    const here = Position.degrees(-30, -20);
    const noon = meridianPassage('Sun', here, DAY).upper[0] as Instant;
    const ship = (s: number) =>
      seen(
        'Sun',
        rhumbDestination(here, deg(0), miles((8 * s) / 3600)),
        noon.plus(Duration.seconds(s)),
      );
    const goal = ship(-9000).observed.degrees;
    let [a, b] = [0, 12000];
    for (let i = 0; i < 50; i++) {
      const m = (a + b) / 2;
      if (ship(m).observed.degrees > goal) a = m;
      else b = m;
    }
    const w = longitudeByEqualAltitudes({
      body: 'Sun',
      rising: noon.plus(Duration.seconds(-9000)),
      falling: noon.plus(Duration.seconds(a)),
      dr: here,
      northKnots: 8,
    });
    expect(Math.abs(w.value.minus(here.longitude).arcminutes)).toBeLessThan(0.2);
  });
  test('times in the wrong order are refused', () => {
    expect(() =>
      longitudeByEqualAltitudes({
        body: 'Sun',
        rising: DAY,
        falling: DAY,
        dr: Position.degrees(0, 0),
      }),
    ).toThrow(/must follow/);
  });
});

describe('a run of altitudes', () => {
  const here = position('19°31′ S', '001°12′ W');
  const start = Instant.utc('2027-05-11 09:40:00 UTC');
  const run = (errors: readonly number[]) =>
    errors.map((e, i) => {
      const instant = start.plus(Duration.seconds(45 * i));
      return { instant, altitude: seen('Sun', here, instant, e).observed };
    });
  test('a computed slope leaves nothing of a run without errors', () => {
    const w = sightRun(run([0, 0, 0, 0, 0, 0]), { slope: { body: 'Sun', position: here } });
    for (const r of w.value.residuals) expect(Math.abs(r.residual.arcseconds)).toBeLessThan(0.01);
    const there = seen('Sun', here, w.value.instant).observed;
    expect(w.value.altitude.minus(there).abs().arcseconds).toBeLessThan(0.01);
  });
  test('one wild altitude of eight is marked and left out, and the sentence names it', () => {
    const errors = [0.3, -0.4, 0.2, 8, -0.1, 0.5, -0.3, 0.1];
    for (const slope of ['fitted', { body: 'Sun', position: here }] as const) {
      const w = sightRun(run(errors), { slope });
      expect(w.value.outliers.map((o) => o.instant.toIso())).toEqual([
        run(errors)[3]?.instant.toIso(),
      ]);
      expect(w.flags[0]).toMatch(/is left out/);
      expect(
        w.value.altitude.minus(seen('Sun', here, w.value.instant).observed).abs().arcminutes,
      ).toBeLessThan(0.3);
    }
  });
  test('the mean’s error is the scatter over √n, as many runs show', () => {
    const rng = seededRandom(5);
    let [squares, claimed] = [0, 0];
    const rounds = 400;
    for (let i = 0; i < rounds; i++) {
      const w = sightRun(run(Array.from({ length: 4 }, () => 0.7 * rng.normal())), {
        slope: { body: 'Sun', position: here },
      });
      squares +=
        w.value.altitude.minus(seen('Sun', here, w.value.instant).observed).arcminutes ** 2;
      claimed += (w.value.meanSigma as Angle).arcminutes ** 2;
    }
    // 400 runs give the ratio of variances to 7 % (1σ).
    expect(squares / claimed).toBeGreaterThan(0.8);
    expect(squares / claimed).toBeLessThan(1.2);
  });
  test('too few are refused', () => {
    expect(() => sightRun(run([0, 0]))).toThrow(/at least 3/);
  });
});

describe('double altitudes', () => {
  test('two Sun altitudes with the run between give the position', () => {
    const here = position('19°31′ S', '001°12′ W');
    const [early, late] = [
      Instant.utc('2027-05-11 09:40:00 UTC'),
      Instant.utc('2027-05-11 13:40:00 UTC'),
    ];
    const course = deg(312);
    const before = rhumbDestination(here, course, miles(-5.2 * 4));
    const w = doubleAltitudes(
      seen('Sun', before, early),
      { ...seen('Sun', here, late), course, speed: Speed.knots(5.2) },
      { dr: position('19°35′ S', '001°05′ W'), course, speed: '5.2 kn' },
    );
    // The run is laid off from the DR, 8 miles out: its turn over that distance is under 0.05 mile.
    expect(Math.abs(w.value.latDeg - here.latDeg) * 60).toBeLessThan(0.1);
    expect(Math.abs(w.value.lonDeg - here.lonDeg) * 60).toBeLessThan(0.1);
    expect(w.uncertainty.sigma.arcminutes).toBeGreaterThan(0.7);
  });
});

describe('compass by amplitude', () => {
  test('on the visible horizon it is the azimuth at sunrise', () => {
    const here = Position.degrees(48, -20);
    const rise = riseSet('Sun', here, DAY).rises[0] as Instant;
    const place = apparentPlace('Sun', rise);
    const truth = computedAltitude(here, place.gha, place.declination).azimuth;
    const w = compassByAmplitude({
      body: 'Sun',
      instant: rise,
      position: here,
      compassBearing: truth,
      horizon: 'visible',
      eyeHeight: '0 m',
    });
    // At sunrise the upper limb is on the horizon, the centre a semi-diameter lower: 16′ tan(Lat) = 0.3° of azimuth.
    expect(Math.abs(w.value.degrees)).toBeLessThan(0.35);
    const celestial = compassByAmplitude({
      body: 'Sun',
      instant: rise,
      position: here,
      compassBearing: truth,
      horizon: 'celestial',
    });
    expect(Math.abs(celestial.value.degrees)).toBeGreaterThan(Math.abs(w.value.degrees));
  });
  test('time, place and variation are taken as text, the variation with its side', () => {
    const asText = {
      body: 'Sun',
      time: '2027-05-12 15:05:44 UTC',
      position: '18°09.2′ S, 002°52.6′ W',
      compassBearing: '324',
      variation: '15° W',
    } as const;
    const w = compassByAzimuth(asText);
    // skyfield 1.55, DE421: azimuth 307.345° there and then, so the compass stands 16.7° W of true.
    expect(w.value.degrees).toBeCloseTo(307.345 - 324, 1);
    expect(w.step('deviation').result).toMatchObject({
      degrees: expect.closeTo(-1.66, 1) as number,
    });
    for (const variation of ['15', '-15°'])
      expect(() => compassByAzimuth({ ...asText, variation })).toThrow('Write 15° W or 3.2° E.');
    expect(() => compassByAzimuth({ ...asText, time: '15:05:44' })).toThrow('date is missing');
    const { time, ...undated } = asText;
    expect(compassByAzimuth({ ...undated, instant: time }).value).toEqual(w.value);
    expect(() => compassByAzimuth(undated)).toThrow("Write time: '2027-05-12 15:05:44 UTC'.");
    const bare = { ...asText, compassBearing: 324 as unknown as string };
    expect(() => compassByAzimuth(bare)).toThrow('A bearing is read from text');
  });
  test('an amplitude is told on which horizon the body stood', () => {
    const check = { body: 'Sun', time: DAY, position: '10° N, 0° E', compassBearing: '073' };
    for (const horizon of [undefined, 'sea'])
      expect(() =>
        compassByAmplitude({ ...check, horizon } as Parameters<typeof compassByAmplitude>[0]),
      ).toThrow(/On which horizon did it stand\? Write horizon: 'visible'/);
  });
  test('where the Sun does not set it says to take an azimuth', () => {
    const here = Position.degrees(80, 0);
    expect(() =>
      compassByAmplitude({
        body: 'Sun',
        instant: DAY,
        position: here,
        compassBearing: '010',
        horizon: 'celestial',
      }),
    ).toThrow(/neither rises nor sets/);
  });
  test('a body well above the horizon is no amplitude', () => {
    const noon = meridianPassage('Sun', Position.degrees(10, 0), DAY).upper[0] as Instant;
    const w = compassByAmplitude({
      body: 'Sun',
      instant: noon,
      position: Position.degrees(10, 0),
      compassBearing: '010',
      horizon: 'celestial',
    });
    expect(w.flags[0]).toMatch(/not on the horizon/);
  });
});

describe('dead reckoning', () => {
  const here = position('15°30′ S', '005°10′ W');
  test('set and drift undo a current', () => {
    const fix = rhumbDestination(here, deg(290), miles(9));
    const w = setAndDrift(here, fix, Duration.hours(12));
    expect(w.uncertainty.toString()).toBe('± 1.0 nm, 1σ');
    expect(w.value.set.degrees).toBeCloseTo(290, 6);
    expect(w.value.drift.knots).toBeCloseTo(0.75, 9);
    expect(w.flags).toEqual([]);
    expect(
      setAndDrift(here, rhumbDestination(here, deg(10), miles(1)), Duration.hours(12)).flags[0],
    ).toMatch(/no current is proved/);
    expect(() => setAndDrift(here, fix, Duration.hours(0))).toThrow(OutOfRangeError);
  });
  test('a day’s work adds the legs, compass errors, leeway and current', () => {
    const w = dayWork(
      here,
      [
        { course: '330°', distance: '40 nmi', compassError: deg(-18), leeway: deg(3) },
        { course: '300°', distance: '60 nmi' },
      ],
      { current: { set: '290°', drift: '0.5 kn', hours: 20 } },
    );
    const expected = [
      [315, 40],
      [300, 60],
      [290, 10],
    ].reduce((p, [c, d]) => rhumbDestination(p, deg(c as number), miles(d as number)), here);
    expect(w.value.to.latDeg).toBeCloseTo(expected.latDeg, 9);
    expect(w.value.to.lonDeg).toBeCloseTo(expected.lonDeg, 9);
    expect(w.value.legs).toHaveLength(3);
    expect(w.uncertainty.sigma.arcminutes).toBeGreaterThan(3);
    expect(() => dayWork(here, [])).toThrow(/at least one leg/);
  });
});

describe('a lunar distance that asks for disbelief', () => {
  const given = {
    body: 'Sun',
    moonLimb: 'near',
    watch: Instant.utc('2027-05-12 14:53:38 UTC'),
    position: position('18°09′ S', '002°56′ W'),
  } as const;
  const flags = (distance: string) => lunarDistance({ ...given, distance: angle(distance) }).flags;
  test('a watch two minutes out is taken as it is', () => {
    expect(flags('82°23.1′')).toEqual([]);
  });
  test('a distance read ten minutes and thirty minutes wrong: the second is flagged with what slips are worth', () => {
    const worth = (d: string) => lunarDistance({ ...given, distance: angle(d) }).value.instant;
    const tenMinutes = worth('82°58.1′').minus(worth('82°48.1′')).minutes;
    const said = flags('82°53.1′').join(' ');
    expect(said).toMatch(/watch is \d\d min slow/);
    const told = /ten minutes of arc in the distance are worth (\d+) min/.exec(said)?.[1];
    // Told to the minute; the rate changes by some parts in a hundred over ten minutes of arc.
    expect(Math.abs(Number(told) - tenMinutes)).toBeLessThan(1);
  });
  test('the uncertainty of the time is what that much of distance moves it by', () => {
    const at = (d: number) =>
      lunarDistance({ ...given, distance: Angle.degrees(d), sigma: Angle.arcminutes(0.3) }).value;
    const d = 82 + 23.1 / 60;
    const moved = at(d + 0.3 / 60).instant.minus(at(d - 0.3 / 60).instant).seconds / 2;
    // Both are of first order: what is left is the change of the rate over 0.6′, and the steps of the search, 0.05 s.
    expect(Math.abs(at(d).sigma.seconds / moved - 1)).toBeLessThan(0.003);
    expect(moved).toBeGreaterThan(45);
  });
});

describe('what a value prints', () => {
  const here = position('19°31′ S', '001°12′ W');
  const forenoon = sight({
    body: 'Sun',
    reading: '39°13.7′',
    time: '2027-05-11 09:42:17 UTC',
    eyeHeight: '2.6 m',
    indexError: '1.4′ off the arc',
    dr: here,
  });
  const compass = compassByAzimuth({
    body: 'Sun',
    instant: forenoon.instant,
    position: here,
    compassBearing: '047.6',
  });
  test('a correction in minutes with its sign, an error of the compass east or west, a latitude north or south', () => {
    expect(String(dip(forenoon).value)).toBe('−2.8′');
    expect(String(indexCorrection(forenoon).value)).toBe('+1.4′');
    expect(String(compass.value)).toBe('3.0° W');
    expect(String(here.latitude)).toBe('19°31.0′ S');
    expect(String(here.longitude)).toBe('001°12.0′ W');
  });
  test('what is worked from it is a plain angle again, and its JSON is that of any angle', () => {
    expect(String(here.latitude.plus(Angle.degrees(1)))).toBe('−18°31.0′');
    expect(JSON.stringify(compass.value)).toBe(
      JSON.stringify(Angle.degrees(compass.value.degrees)),
    );
  });
  test('a working prints its title, value and uncertainty', () => {
    expect(String(dip(forenoon))).toBe('Dip: Sun, lower limb: −2.8′ ± 0.4′, 1σ');
    expect(String(compass)).toBe('Compass error by azimuth: Sun: 3.0° W ± 0.5°, 1σ');
  });
});

test('bodies used here are bodies of the list', () => {
  expect(isSolarSystem('Sun')).toBe(true);
});
