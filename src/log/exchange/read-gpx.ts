import { DOMParser, onErrorStopParsing, type Element } from '@xmldom/xmldom';
import { EntryError } from '../../core/units/index.js';
import { readUtcMs } from '../columns/read-time.js';
import type { TrackPoint } from './track.js';

const GPX_1_1 = 'http://www.topografix.com/GPX/1/1';

/**
 * Track points of a GPX 1.1 text, in the order of the file, with its first track's name. Points without a time say
 * nothing about when and are an error, not passed over.
 * @throws EntryError naming the point and its mistake
 */
export function readGpxTrack(text: string): { points: TrackPoint[]; name: string | null } {
  const root = parse(text);
  if (root.localName !== 'gpx' || root.namespaceURI !== GPX_1_1)
    throw new EntryError(
      `This is not GPX 1.1: the root is <${root.nodeName}> in ${root.namespaceURI ?? 'no namespace'}, and should be <gpx> in ${GPX_1_1}.`,
      text.slice(0, 120),
    );
  const found = Array.from(root.getElementsByTagNameNS(GPX_1_1, 'trkpt'));
  if (found.length === 0)
    throw new EntryError('The GPX holds no track point (trkpt).', text.slice(0, 120));
  const points = found.map(readPoint).sort((a, b) => a.utcMs - b.utcMs);
  const track = root.getElementsByTagNameNS(GPX_1_1, 'trk')[0];
  return { points, name: track ? childText(track, 'name') : null };
}

function parse(text: string): Element {
  try {
    const parser = new DOMParser({ onError: onErrorStopParsing });
    const root = parser.parseFromString(text.replace(/^\uFEFF/, ''), 'text/xml').documentElement;
    if (root) return root;
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    throw new EntryError(
      `This is not well-formed XML: ${message.split('\n')[0]}`,
      text.slice(0, 120),
    );
  }
  throw new EntryError('This is not XML.', text.slice(0, 120));
}

function readPoint(element: Element, index: number): TrackPoint {
  const where = `Track point ${index + 1}`;
  const time = childText(element, 'time');
  if (!time) throw new EntryError(`${where} has no time, so nothing can be compared with it.`, '');
  return {
    utcMs: readTime(time.trim(), where),
    latDeg: degrees(element, 'lat', 90, where),
    lonDeg: degrees(element, 'lon', 180, where),
  };
}

function readTime(text: string, where: string): number {
  const zoned = /^(.*\d)([+-])(\d\d):(\d\d)$/.exec(text);
  try {
    if (!zoned) return readUtcMs(text);
    // XML Schema dateTime may carry an offset; there it is unambiguous.
    const offset = (Number(zoned[3]) * 60 + Number(zoned[4])) * (zoned[2] === '-' ? -1 : 1);
    return readUtcMs(zoned[1] ?? '') - offset * 60_000;
  } catch (error) {
    if (error instanceof EntryError)
      throw new EntryError(`${where}: ${error.message.split('\n')[0]}`, text);
    throw error;
  }
}

function degrees(element: Element, name: 'lat' | 'lon', limit: number, where: string): number {
  const text = element.getAttribute(name);
  const value = text === null || text.trim() === '' ? NaN : Number(text);
  if (!(Math.abs(value) <= limit))
    throw new EntryError(
      `${where}: ${name}="${text ?? ''}" is not a number within ±${limit}.`,
      text ?? '',
    );
  return value;
}

function childText(element: Element, name: string): string | null {
  const child = Array.from(element.childNodes).find((n) => (n as Element).localName === name);
  return child?.textContent ?? null;
}
