import fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  fix,
  logColumns,
  SightLog,
  simulateLunarDistances,
  simulateMoonAndPlanets,
  simulateNoonRound,
  simulatePassage,
  simulatePracticeAfternoon,
  simulateWinterClass,
  Track,
} from '../../src/index.js';

const DEMO = new URL('../../data/demo/', import.meta.url);
const text = (name: string) => fs.readFileSync(new URL(name, DEMO), 'utf8');

describe.each([
  ['practice-afternoon', simulatePracticeAfternoon, 40],
  ['passage', simulatePassage, 392],
  ['winter-class', simulateWinterClass, 24],
  ['noon', simulateNoonRound, 23],
  ['moon-and-planets', simulateMoonAndPlanets, 15],
] as const)('the demo log %s', (name, simulate, rows) => {
  const csv = text(`${name}.csv`);
  const truth = JSON.parse(text(`${name}-truth.json`)) as {
    simulated: boolean;
    seed: number;
    readings: unknown[];
  };

  it('says in its head that it is simulated, with seed and version', () => {
    const log = SightLog.fromCsv(csv);
    const head = log.preamble.join('\n');
    expect(head).toMatch(/Simulated, not observed/);
    expect(head).toMatch(/Cocked Hat \d+\.\d+\.\d+, seed \d+/);
    expect(truth).toMatchObject({ simulated: true });
    expect(truth.readings).toHaveLength(rows);
  });

  it('is read whole, with nothing refused or doubtful', () => {
    const { report } = SightLog.fromCsv(csv);
    expect(report.summary).toBe(`${rows} rows: ${rows} taken, 0 refused.`);
    expect(report.notes).toEqual([]);
  });

  it('is what its seed gives', () => {
    const body = (t: string) => t.split('\n').filter((l) => !l.startsWith('#'));
    const made = body(simulate(truth.seed).csv);
    const kept = body(csv);
    expect(made).toHaveLength(kept.length);
    // Mathematical functions differ in the last digit between machines: a reading may round the other way.
    expect(made.filter((l, i) => l !== kept[i]).length).toBeLessThanOrEqual(2);
  });
});

describe('the demo distances of Sun and Moon', () => {
  it('say that they are simulated, and are what their seed gives', () => {
    const csv = text('lunar-distances.csv');
    const { seed } = JSON.parse(text('lunar-distances-truth.json')) as { seed: number };
    const rows = (t: string) => t.split('\n').filter((line) => /^\d/.test(line));
    expect(csv).toMatch(/Simulated, not observed/);
    expect(csv).toContain(`seed ${seed}`);
    const made = rows(simulateLunarDistances(seed).csv);
    expect(made).toHaveLength(7);
    // A distance on the edge of a tenth may round the other way on another machine.
    expect(made.filter((line, i) => line !== rows(csv)[i]).length).toBeLessThanOrEqual(1);
  });
});

describe('the demo folder', () => {
  it('has a Sun run whose lines contradict each other: the fix says so, and not that it did not settle', () => {
    const run = SightLog.fromCsv(text('passage.csv')).round('2027-05-14 Sun run');
    expect(fix(run).flags.map(({ code }) => code)).toEqual(['contradiction']);
  });
  it('has a track that covers the passage', () => {
    const track = Track.fromGpx(text('passage-track.gpx'));
    const log = SightLog.fromCsv(text('passage.csv')).withTrack(track);
    expect(log.rows().every((r) => r.reference === 'track')).toBe(true);
  });

  it('describes every column of the format in its README, and no other', () => {
    const readme = text('README.md');
    const described = [...readme.matchAll(/^\| `([^`]+)` \|/gm)].map((m) => m[1]);
    expect(described).toEqual(logColumns.map((c) => c.head));
    for (const c of logColumns) expect(readme).toContain(c.about);
  });
});
