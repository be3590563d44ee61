import { formatAngle, formatBearing } from '../../core/units/index.js';
import type { PlainTable } from '../plain-table.js';
import type { CauseShare, Gain, LevelRegion } from './uncertainty-model.js';

const percent = (part: number) =>
  part > 0 && part < 0.01 ? '< 1 %' : `${Math.round(part * 100)} %`;
/** Miles of a column, all to the decimal that gives the smallest of them two figures. */
const miles = (column: readonly number[]) => {
  const digits = Math.min(...column) < 1 ? 2 : 1;
  return (nm: number) => `${nm.toFixed(digits)} nm`;
};

/** A cause as it begins a row. */
export const causeName = (cause: string): string => cause.charAt(0).toUpperCase() + cause.slice(1);

export const causesTable = (shares: readonly CauseShare[]): PlainTable => ({
  caption: 'What the doubt comes from',
  heads: ['Cause', '1σ in an altitude', 'Between sights', 'Share of the doubt'],
  rows: shares.map((s) => [
    causeName(s.cause),
    s.sigmaArcmin > 0 ? `${s.sigmaArcmin.toFixed(2)}′` : '',
    s.isShared ? 'the same for all' : 'each its own',
    percent(s.share),
  ]),
});

export function levelsTable(levels: readonly LevelRegion[]): PlainTable {
  const long = miles(levels.map((l) => l.semiMajorNm));
  const wide = miles(levels.map((l) => l.semiMinorNm));
  return {
    caption: 'The region by how often it holds the ship',
    heads: ['Holds the ship with', 'Half its length', 'Half its width', 'Long axis'],
    rows: levels.map((l) => [
      percent(l.level),
      long(l.semiMajorNm),
      wide(l.semiMinorNm),
      formatBearing(l.axisDeg),
    ]),
  };
}

export function gainsTable(gains: readonly Gain[], most = 12): PlainTable {
  const shown = gains.slice(0, most);
  const long = miles(shown.map((g) => g.semiMajorNm));
  const wide = miles(shown.map((g) => g.semiMinorNm));
  return {
    caption: 'What one more sight would do',
    heads: [
      'Body',
      'Altitude',
      'Azimuth',
      'Half its length',
      'Half its width',
      'Area of the region',
    ],
    rows: shown.map((g) => [
      g.body,
      formatAngle(g.altitudeDeg, 0),
      formatBearing(g.azimuthDeg),
      long(g.semiMajorNm),
      wide(g.semiMinorNm),
      `${percent(g.areaFactor)} of now`,
    ]),
  };
}
