import { describe, expect, it } from 'vitest';
import {
  EntryError,
  fix,
  Instant,
  simulatePassage,
  SightLog,
  toGeoJson,
  toGpx,
  Track,
  type FeatureCollection,
} from '../../src/index.js';
import { askPython } from '../support/python.js';

const { log, track, csv } = simulatePassage(20270504);
const round = '2027-05-14 dawn';
const TEXTS = {
  UTC: '2027-05-11 09:42:17',
  body: 'Sun',
  limb: 'lower',
  reading: "41°18,6'",
  'height of eye': '9 ft',
  temperature: '−3 °C',
  remarks: '=HYPERLINK("http://example.invalid")',
  'cloud cover': '@3/8; "thin"',
};
const strange = SightLog.fromCsv(
  [Object.keys(TEXTS), Object.values(TEXTS).map((t) => `"${t.replaceAll('"', '""')}"`)]
    .map((r) => r.join(';'))
    .join('\r\n'),
);

describe('CSV written and read again', () => {
  it.each([{}, { delimiter: ';' }, { delimiter: '\t', lineEnd: '\n' }, { bom: true }] as const)(
    'loses and changes nothing, with %o',
    (options) => {
      const again = SightLog.fromCsv(log.toCsv(options));
      const plain = (l: SightLog) => l.readings().map(({ line: _, ...r }) => r);
      expect(plain(again)).toEqual(plain(log));
      expect(again.preamble).toEqual(log.preamble);
    },
  );

  it('keeps what was written as it was written', () => {
    const again = SightLog.fromCsv(strange.toCsv());
    const { readingText, eyeHeightText, temperatureText, remarks } = again.readings()[0] ?? {};
    expect({ readingText, eyeHeightText, temperatureText, remarks }).toEqual({
      readingText: TEXTS.reading,
      eyeHeightText: TEXTS['height of eye'],
      temperatureText: TEXTS.temperature,
      remarks: TEXTS.remarks,
    });
    expect(again.get('cloudCover', 0)).toBe(TEXTS['cloud cover']);
  });

  it('makes formulas harmless in the file, in our CSV and in arquero’s', () => {
    for (const text of [strange.toCsv(), strange.toCSV()]) {
      expect(text).toContain(`'=HYPERLINK`);
      expect(text).toContain(`'@3/8`);
      expect(text).not.toMatch(/(^|[,\n"])[=@]/);
    }
  });

  it('writes a changed value, not the text it no longer matches', () => {
    const changed = strange.derive({ eyeHeightM: () => 3 }) as SightLog;
    expect(changed.toCsv()).toContain(',3,');
    expect(changed.toCsv()).not.toContain('9 ft');
  });

  it('keeps watch time and watch error, and has UTC follow from them', () => {
    const byWatch = SightLog.fromCsv(
      'watch time,watch error,body,limb,reading\n2027-05-11 09:42:29,12 s fast,Sun,lower,41°18.6′\n',
    );
    expect(byWatch.get('utcMs', 0)).toBe(Instant.utc('2027-05-11 09:42:17').epochMs);
    expect(byWatch.sights()[0]?.instant.toIso()).toBe('2027-05-11T09:42:17Z');
    const again = SightLog.fromCsv(byWatch.toCsv());
    expect(again.get('watchText', 0)).toBe('2027-05-11 09:42:29');
    expect(again.get('utcMs', 0)).toBe(byWatch.get('utcMs', 0));
  });

  it('takes date and time from two columns, units from the head, and an index correction', () => {
    const two = SightLog.fromCsv(
      'date,UTC,body,limb,hs,height of eye (ft),IC\n2027-05-11,09:42:17,Sun,UL,41 18.6,9,-1.4\n',
    );
    expect(two.report.refused).toEqual([]);
    const { utcMs, limb, eyeHeightM, indexErrorArcmin } = two.readings()[0] ?? {};
    expect({ utcMs, limb }).toEqual({
      utcMs: Instant.utc('2027-05-11 09:42:17').epochMs,
      limb: 'upper',
    });
    expect(eyeHeightM).toBeCloseTo(2.7432, 10);
    expect(indexErrorArcmin).toBeCloseTo(1.4, 10);
    expect(SightLog.fromCsv(two.toCsv()).get('indexErrorArcmin', 0)).toBeCloseTo(1.4, 10);
  });

  it('reads bytes: UTF-16 with its mark, and Windows-1252 with a note', () => {
    const text = 'UTC,body,limb,reading\n2027-05-11 09:42:17,Sun,lower,41°18.6\n';
    const utf16 = new Uint8Array(Buffer.from('\uFEFF' + text, 'utf16le'));
    const latin = new Uint8Array(Buffer.from(text, 'latin1'));
    expect(SightLog.fromCsv(utf16).get('readingDeg', 0)).toBeCloseTo(41.31, 10);
    expect(SightLog.fromCsv(latin).get('readingDeg', 0)).toBeCloseTo(41.31, 10);
    expect(SightLog.fromCsv(latin).report.notes.join()).toMatch(/Windows-1252/);
  });
});

describe('JSON and Arrow', () => {
  it('JSON carries every text, comment and refused row', () => {
    const damaged = SightLog.fromCsv(csv.replace('Sun,lower', 'Son,lower'));
    const again = SightLog.fromJson(damaged.toJson());
    const plain = (l: SightLog) => l.readings().map(({ line: _, ...r }) => r);
    expect(plain(again)).toEqual(plain(damaged));
    expect(again.report.refused).toEqual(damaged.report.refused);
    expect(again.preamble).toEqual(damaged.preamble);
    expect(() => SightLog.fromJson('{"a":1}')).toThrow(EntryError);
    expect(() => SightLog.fromJson('{')).toThrow(/not JSON/);
  });

  it('JSON keeps a column of the log’s own in which nothing has been written yet', () => {
    const [head = '', ...rows] = csv.split('\n').filter((line) => !line.startsWith('#'));
    const own = SightLog.fromCsv([`${head},swell`, ...rows.map((r) => r && `${r},`)].join('\n'));
    expect(own.columnNames()).toContain('swell');
    const again = SightLog.fromJson(own.toJson());
    expect(again.columnNames()).toContain('swell');
    expect(again.toCsv()).toBe(own.toCsv());
  });

  it('Arrow carries the table', () => {
    const again = SightLog.fromArrow(log.toArrowIPC());
    const plain = (l: SightLog) => l.readings().map(({ line: _, ...r }) => r);
    expect(plain(again)).toEqual(plain(log));
    expect(again.get('hoDeg', 7)).toBe(log.get('hoDeg', 7));
    const noBody = log.select('utcMs', 'readingDeg').toArrowIPC();
    expect(() => SightLog.fromArrow(noBody)).toThrow(/no column 'body'/);
  });
});

describe('GPX and GeoJSON', () => {
  const dawn = fix(log.round(round));

  it('gpxpy, a GPX reader of its own, reads back the fix, its lines and the track', async () => {
    const gpx = toGpx([dawn, track]);
    const read = await askPython<{
      wpt: number[][];
      rte: string[];
      trk: [string, number, number[]];
    }>(
      `
import gpxpy
g = gpxpy.parse(given, version='1.1')
points = [p for t in g.tracks for s in t.segments for p in s.points]
answer = {'wpt': [[w.latitude, w.longitude, w.time.timestamp()] for w in g.waypoints],
  'rte': [r.name for r in g.routes],
  'trk': [g.tracks[0].name, len(points), [points[5].latitude, points[5].longitude, points[5].time.timestamp()]]}`,
      gpx,
    );
    // One line makes no fix, and its waypoint does not say that it is one.
    const [only] = log.round(round);
    expect(toGpx([fix([only!])])).toMatch(/<name>Estimated position 2027-05-14T\d\d:\d\dZ/);
    expect(toGpx([dawn])).toMatch(/<name>Fix 2027-05-14T\d\d:\d\dZ/);
    expect(read.wpt).toHaveLength(1);
    expect(read.wpt[0]?.[0]).toBeCloseTo(dawn.position.latDeg, 6);
    expect(read.wpt[0]?.[1]).toBeCloseTo(dawn.position.lonDeg, 6);
    expect(read.rte).toEqual(dawn.lines.map((l) => l.label));
    expect(read.trk[0]).toBe('Quillfeather');
    expect(read.trk[1]).toBe(track.points.length);
    const [lat, lon, time] = read.trk[2] as [number, number, number];
    expect([lat, lon, time * 1000]).toEqual([
      track.points[5]?.latDeg,
      track.points[5]?.lonDeg,
      track.points[5]?.utcMs,
    ]);
  });

  it('a track goes out and comes in again', () => {
    const again = Track.fromGpx(toGpx([track]));
    expect(again.points).toEqual(track.points);
    expect(again.name).toBe(track.name);
  });

  it('reads what gpxpy writes', async () => {
    const gpx = await askPython<string>(
      `
import gpxpy.gpx, datetime
g = gpxpy.gpx.GPX(); t = gpxpy.gpx.GPXTrack(name='A & B'); g.tracks.append(t)
s = gpxpy.gpx.GPXTrackSegment(); t.segments.append(s)
for i in range(3):
  s.points.append(gpxpy.gpx.GPXTrackPoint(-22.5 + i / 10, 14.5, time=datetime.datetime(2027, 5, 4, 5, 10 * i, tzinfo=datetime.timezone.utc)))
answer = g.to_xml(version='1.1')`,
      null,
    );
    const read = Track.fromGpx(gpx);
    expect(read.name).toBe('A & B');
    const halfway = read.at(Instant.utc('2027-05-04 05:05:00'));
    // Halfway in time on a meridian; the ellipsoid moves the middle of 0.1° by under 1e-6°.
    expect(halfway?.latDeg).toBeCloseTo(-22.45, 5);
    expect(read.at(Instant.utc('2027-05-04 05:20:01'))).toBeNull();
    expect(read.at(Instant.utc('2027-05-04 04:59:59'))).toBeNull();
  });

  it.each([
    ['<gpx', /well-formed|not XML/],
    ['<gpx version="1.0" xmlns="http://www.topografix.com/GPX/1/0"></gpx>', /not GPX 1.1/],
    ['<gpx xmlns="http://www.topografix.com/GPX/1/1"></gpx>', /no track point/],
    [
      '<gpx xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg><trkpt lat="1" lon="2"/></trkseg></trk></gpx>',
      /point 1 has no time/,
    ],
    [
      '<gpx xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg><trkpt lat="91" lon="2"><time>2027-05-04T05:00:00Z</time></trkpt></trkseg></trk></gpx>',
      /lat="91"/,
    ],
  ])('refuses %s', (text, reason) => {
    expect(() => Track.fromGpx(text)).toThrow(EntryError);
    expect(() => Track.fromGpx(text)).toThrow(reason);
  });

  it('GeoJSON holds fix, DR, lines, region and track, each with its kind', () => {
    const made: FeatureCollection = toGeoJson(dawn, track);
    const kinds = made.features.map((f) => f.properties['kind']);
    expect(new Set(kinds)).toEqual(new Set(['fix', 'DR', 'position line', 'region', 'track']));
    const line = made.features.find((f) => f.properties['kind'] === 'track');
    expect(line?.geometry.type).toBe('LineString');
    expect(line?.geometry.coordinates).toHaveLength(track.points.length);
    expect((line?.properties['times'] as string[])[0]).toBe('2027-05-04T05:00:00.000Z');
  });

  it('a track across the antimeridian is cut there (RFC 7946, section 3.1.9)', () => {
    const points = [179.5, 179.9, -179.7].map((lonDeg, i) => ({
      utcMs: i * 600_000,
      latDeg: -10,
      lonDeg,
    }));
    const [cut] = toGeoJson(new Track(points)).features;
    expect(cut?.geometry.type).toBe('MultiLineString');
    expect(new Track(points).placeAt(900_000)?.lonDeg).toBeCloseTo(-179.9, 6);
  });
});
