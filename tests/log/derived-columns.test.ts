import { describe, expect, it } from 'vitest';
import { fix, observedAltitude, positionLine } from '../../src/index.js';
import { simulatePassage } from '../../src/log/simulate/passage.js';
import { SightLog } from '../../src/log/index.js';

const { log, track } = simulatePassage(20270504);

describe('derived columns of a log', () => {
  it('Ho by the kernel is Ho of the working, for every reading, to 1e-9 degrees', () => {
    const ho = log.array('hoDeg') as number[];
    ho.forEach((value, i) => expect(value).toBeCloseTo(log.working(i).value.degrees, 9));
    expect(ho.length).toBeGreaterThan(380);
  });

  it('Hc, Zn and intercept are those of a position line from the DR', () => {
    for (const i of [0, 17, 101, 390]) {
      const sight = log.sightAt(i);
      if (!sight.dr) throw new Error('the log has a DR in every row');
      const line = positionLine(sight, sight.dr);
      expect(log.get('hcDeg', i)).toBeCloseTo(line.computed.degrees, 9);
      expect(log.get('znDeg', i)).toBeCloseTo(line.azimuth.degrees, 9);
      expect(log.get('interceptNm', i)).toBeCloseTo(line.intercept.nauticalMiles, 6);
    }
  });

  it('sigma is that of the working', () => {
    expect(log.get('sigmaArcmin', 5)).toBeCloseTo(
      observedAltitude(log.sightAt(5)).uncertainty.sigma.arcminutes,
      12,
    );
  });

  it('without a track residuals are against the fix of the round, and agree with the fix', () => {
    const name = '2027-05-14 dawn';
    const found = fix(log.round(name));
    const rows = log.roundLog(name).rows();
    expect(new Set(rows.map((r) => r.reference))).toEqual(new Set(['fix of the round']));
    const bySight = new Map<string, number[]>();
    for (const r of rows)
      bySight.set(r.sight, [...(bySight.get(r.sight) ?? []), r.residualArcmin ?? NaN]);
    // The mean of two readings a minute apart bends by under 0.02′ in a minute of time at these rates.
    [...bySight.values()].forEach((list, s) => {
      const mean = list.reduce((a, b) => a + b, 0) / list.length;
      expect(mean).toBeCloseTo(found.residuals[s]?.residual.arcminutes ?? NaN, 1);
    });
  });

  it('influence is how far the fix moves without the sight', () => {
    const name = '2027-05-14 dawn';
    const sights = log.round(name);
    const whole = fix(sights).position;
    const without = fix(sights.slice(1)).position;
    const north = (without.latDeg - whole.latDeg) * 60;
    const east = (without.lonDeg - whole.lonDeg) * 60 * Math.cos((whole.latDeg * Math.PI) / 180);
    // The plane stands in for the ellipsoid: half a per cent.
    const influence = log.roundLog(name).get('influenceNm', 0) as number;
    expect(influence / Math.hypot(north, east)).toBeCloseTo(1, 1);
    expect(influence).toBeGreaterThan(0);
  });

  it('with a track residuals are against the track, but for rows beyond its ends', () => {
    const rows = log.withTrack(track).rows();
    expect(rows.every((r) => r.reference === 'track')).toBe(true);
    const late = log
      .withTrack(track)
      .rows()
      .map((r) => r.residualArcmin ?? NaN);
    const inside = late.filter((r) => Math.abs(r) < 5);
    expect(inside.length).toBeGreaterThanOrEqual(log.numRows() - 4);
  });

  it('follow when what they are worked from is changed, and only then', () => {
    const before = log.get('hoDeg', 0) as number;
    const raised = log.derive({ eyeHeightM: () => 5 }) as SightLog;
    expect(raised).toBeInstanceOf(SightLog);
    expect(raised.get('hoDeg', 0)).toBeLessThan(before);
    const remarked = log.derive({ cloud: () => 'none' });
    expect(remarked.column('hoDeg')).toBe(log.column('hoDeg'));
  });

  it('cannot be overwritten', () => {
    expect(() => log.derive({ hoDeg: () => 1 })).toThrow(/worked out from the readings/);
  });
});

describe('a sight log among arquero verbs', () => {
  it('stays a sight log as long as its columns are there', () => {
    for (const table of [
      log.filter('d => d.body === "Sun"'),
      log.orderby('residualArcmin'),
      log.slice(3, 9),
      log.groupby('observer'),
      log.concat(log.slice(0, 2)),
      log.filter('d => d.observer === "B"').reify(),
      log.sample(10),
    ])
      expect(table).toBeInstanceOf(SightLog);
    expect(log.select('body', 'readingDeg')).not.toBeInstanceOf(SightLog);
    expect(log.groupby('observer').count().objects()).toHaveLength(2);
  });

  it('keeps report, track and comments through the verbs', () => {
    const part = log.withTrack(track).filter('d => d.body === "Sun"').orderby('utcMs').reify();
    expect(part.report).toBe(log.report);
    expect(part.track).toBe(track);
    expect(part.preamble[0]).toMatch(/^# Simulated, not observed/);
    expect(part.numRows()).toBe(log.filter('d => d.body === "Sun"').numRows());
  });

  it('rejects with a reason, keeps the reading, and takes it back', () => {
    const out = log.reject((r) => r.body === 'Sun' && r.observer === 'A', 'trial');
    expect(out.numRows()).toBe(log.numRows());
    expect(
      out
        .rejected()
        .rows()
        .every((r) => !r.accepted && r.reason !== null),
    ).toBe(true);
    expect(out.rejected().numRows()).toBeGreaterThan(log.rejected().numRows());
    expect(out.sights().length).toBeLessThan(log.sights().length);
    const back = out.accept((r) => r.reason === 'trial');
    expect(back.sights().length).toBe(log.sights().length);
    expect(log.rejected().numRows()).toBe(2);
  });

  it('names the rounds when asked for one that is not there', () => {
    expect(() => log.round('2027-05-14 dwan')).toThrow(/'2027-05-14 dawn'/);
  });
});
