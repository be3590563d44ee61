import type { Fix } from '../../core/fix/index.js';
import type { PositionLine } from '../../core/line/index.js';
import type { Position } from '../../core/units/index.js';
import { Track } from './track.js';
import type { Mapped } from './geojson.js';

const NAMESPACE = 'http://www.topografix.com/GPX/1/1';

/**
 * Fixes as waypoints, position lines as routes and tracks as tracks of one GPX 1.1 text. Fixes bring their lines.
 * @param creator what the file says made it
 */
export function toGpx(items: readonly Mapped[], creator = 'Cocked Hat'): string {
  const fixes = items.filter(isFix);
  const lines = [
    ...fixes.flatMap((f) => f.lines.map((l) => ({ label: l.label, points: l.points() }))),
    ...items.filter(isLine).map((l) => ({ label: l.toString(), points: l.points() })),
  ];
  const tracks = items.filter((i) => i instanceof Track);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<gpx xmlns="${NAMESPACE}" version="1.1" creator="${escapeXml(creator)}">`,
    ...fixes.map(waypoint),
    ...lines.map((l) => route(l.label, l.points)),
    ...tracks.map(trackXml),
    '</gpx>',
    '',
  ].join('\n');
}

const isFix = (item: Mapped): item is Fix => 'region' in item;
const isLine = (item: Mapped): item is PositionLine => 'intercept' in item;

function waypoint(fix: Fix): string {
  const time = fix.instant.toIso();
  const minute = fix.instant.nearestMinute().toIso().slice(0, 16);
  // Lines that do not cross make no fix, and a chart plotter shows nothing but the name.
  const name = `${fix.kind === 'fix' ? 'Fix' : 'Estimated position'} ${minute}Z`;
  return `  <wpt ${place(fix.position)}><time>${time}</time><name>${name}</name><desc>${escapeXml(fix.toString())}</desc></wpt>`;
}

function route(label: string, points: readonly Position[]): string {
  const list = points.map((p) => `<rtept ${place(p)}/>`).join('');
  return `  <rte><name>${escapeXml(label)}</name>${list}</rte>`;
}

function trackXml(track: Track): string {
  const points = track.points.map(
    (p) =>
      `      <trkpt ${place(p)}><time>${new Date(p.utcMs).toISOString().replace('.000Z', 'Z')}</time></trkpt>`,
  );
  const name = track.name ? `<name>${escapeXml(track.name)}</name>` : '';
  return [`  <trk>${name}<trkseg>`, ...points, '  </trkseg></trk>'].join('\n');
}

/** 1e-7° is 11 mm. A longitude of 180° is written −180°: the schema's range leaves 180 out. */
function place({ latDeg, lonDeg }: { latDeg: number; lonDeg: number }): string {
  const short = (deg: number) => String(Number(deg.toFixed(7)));
  return `lat="${short(latDeg)}" lon="${short(lonDeg >= 180 ? lonDeg - 360 : lonDeg)}"`;
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};
const escapeXml = (text: string): string => text.replace(/[&<>"]/g, (c) => ESCAPES[c] ?? c);
