import { formatAngle, formatBearing } from '../../core/units/index.js';
import type { PlainTable } from '../plain-table.js';
import type { CauseShare, Gain, LevelRegion } from './uncertainty-model.js';

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
