import { formatAngle, formatBearing } from '../../core/units/index.js';
import { escapeHtml } from '../escape.js';
import type { CauseShare, Gain, LevelRegion } from './uncertainty-model.js';

/** A small table: heads and cells, the first column a text, the others figures. */
export interface PlainTable {
  readonly caption: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

const percent = (part: number) =>
  part > 0 && part < 0.01 ? '< 1 %' : `${Math.round(part * 100)} %`;
const miles = (nm: number) => `${nm.toFixed(nm < 1 ? 2 : 1)} nm`;

export const causesTable = (shares: readonly CauseShare[]): PlainTable => ({
  caption: 'What the doubt comes from',
  heads: ['Cause', '1σ in an altitude', 'Between sights', 'Share of the doubt'],
  rows: shares.map((s) => [
    s.cause,
    s.sigmaArcmin > 0 ? `${s.sigmaArcmin.toFixed(2)}′` : '',
    s.isShared ? 'the same for all' : 'each its own',
    percent(s.share),
  ]),
});

export const levelsTable = (levels: readonly LevelRegion[]): PlainTable => ({
  caption: 'The region by how often it holds the ship',
  heads: ['Holds the ship with', 'Half its length', 'Half its width', 'Long axis'],
  rows: levels.map((l) => [
    percent(l.level),
    miles(l.semiMajorNm),
    miles(l.semiMinorNm),
    formatBearing(l.axisDeg),
  ]),
});

export const gainsTable = (gains: readonly Gain[], most = 12): PlainTable => ({
  caption: 'What one more sight would do',
  heads: ['Body', 'Altitude', 'Azimuth', 'Half its length', 'Half its width', 'Area of the region'],
  rows: gains
    .slice(0, most)
    .map((g) => [
      g.body,
      formatAngle(g.altitudeDeg, 0),
      formatBearing(g.azimuthDeg),
      miles(g.semiMajorNm),
      miles(g.semiMinorNm),
      `${percent(g.areaFactor)} of now`,
    ]),
});

export function tableText({ caption, heads, rows }: PlainTable): string {
  const all = [heads, ...rows];
  const widths = heads.map((_, i) => Math.max(...all.map((r) => [...(r[i] ?? '')].length)));
  const line = (r: readonly string[]) =>
    r
      .map((c, i) => {
        const gap = ' '.repeat(Math.max(0, (widths[i] ?? 0) - [...c].length));
        return i === 0 ? c + gap : gap + c;
      })
      .join('  ');
  return [caption, ...all.map(line)].join('\n');
}

export function tableHtml({ caption, heads, rows }: PlainTable): string {
  const cell = (tag: string, text: string, i: number) =>
    `<${tag} style="padding:3px 8px;text-align:${i ? 'right' : 'left'};font-variant-numeric:tabular-nums"${tag === 'th' ? ' scope="col"' : ''}>${escapeHtml(text)}</${tag}>`;
  return [
    '<table style="border-collapse:collapse;margin:8px 0">',
    `<caption style="text-align:left;caption-side:top"><b>${escapeHtml(caption)}</b></caption>`,
    `<thead><tr>${heads.map((h, i) => cell('th', h, i)).join('')}</tr></thead><tbody>`,
    ...rows.map((r) => `<tr>${r.map((c, i) => cell('td', c, i)).join('')}</tr>`),
    '</tbody></table>',
  ].join('');
}
