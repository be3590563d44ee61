import { altitudeRateKernel } from '../../core/line/index.js';
import type { Random, SlipKind } from '../../core/fix/index.js';
import type { Instant, Position } from '../../core/units/index.js';
import { inReach, moments, seenFrom, type Setting } from '../situation/index.js';

/** One sight of the passage, worked at the position the track gives. */
export interface PassageRow {
  readonly number: number;
  readonly observer: 'A' | 'B';
  readonly instant: Instant;
  readonly azimuthDeg: number;
  /** Observed less computed altitude at the known position, to 0.1′. */
  readonly interceptNm: number;
}

/** What all sights of the page have in common. */
export interface PassagePage {
  readonly rows: readonly PassageRow[];
  readonly at: Position;
  /** On the arc positive. */
  readonly indexErrorArcmin: number;
  readonly dipArcmin: number;
  readonly semidiameterArcmin: number;
}

/** Slips to choose from, called as the library calls them in a log. */
export const SLIPS = [
  'wrong limb',
  'index sign',
  'ten minutes',
  'whole degree',
  'minute of time',
  'dip forgotten',
] as const satisfies readonly SlipKind[];
export type PassageSlip = (typeof SLIPS)[number];

/** What each slip does to the intercept of a row, minutes of arc; those that go either way have both. */
export function slipEffects(page: PassagePage, row: PassageRow): Record<PassageSlip, number[]> {
  const perMinute = 60 * altitudeRateKernel(page.at.latDeg, row.azimuthDeg);
  return {
    'wrong limb': [-2 * page.semidiameterArcmin],
    'index sign': [2 * page.indexErrorArcmin],
    'ten minutes': [10, -10],
    'whole degree': [60, -60],
    'minute of time': [perMinute, -perMinute],
    'dip forgotten': [page.dipArcmin],
  };
}

const ROWS = 10;
const SCATTER_ARCMIN = 0.4;
const LEAST_APART_ARCMIN = 2.2;
const LEAST_EFFECT_ARCMIN = 4.5;

/** Ten Sun sights of a few days with the two observers' biases and one slip; nothing when the slip would not show. */
export function drawRows(
  random: Random,
  { position, day }: Setting,
  base: Omit<PassagePage, 'rows' | 'at'>,
): PassagePage | undefined {
  const bias = { A: 0.6 * random.normal(), B: 0.9 + 0.6 * random.uniform() };
  const rows = Array.from({ length: ROWS }, (_, i): PassageRow | undefined => {
    const hour =
      12 - position.lonDeg / 15 + (random.uniform() < 0.5 ? -1 : 1) * (1.5 + 2 * random.uniform());
    const when = Math.floor(i / 2) * 24 + hour;
    const [instant] = [...moments(day, when, when + 0.02, 1, random.below(60))];
    const seen = instant && seenFrom('Sun', instant, position);
    if (!instant || !seen || !inReach(seen.altDeg)) return undefined;
    const observer = random.uniform() < 0.5 ? 'A' : 'B';
    const interceptNm = bias[observer] + SCATTER_ARCMIN * random.normal();
    return { number: i + 1, observer, instant, azimuthDeg: seen.azDeg, interceptNm };
  });
  if (rows.some((row) => row === undefined)) return undefined;
  const page = { ...base, at: position, rows: rows as PassageRow[] };
  const of = (observer: 'A' | 'B') => page.rows.filter((row) => row.observer === observer);
  if (of('A').length < 4 || of('B').length < 4) return undefined;
  return withSlip(random, page);
}

/** Puts one slip on one row, if it can be told from every other slip there. */
function withSlip(random: Random, page: PassagePage): PassagePage | undefined {
  const victim = page.rows[random.below(page.rows.length)];
  const slip = SLIPS[random.below(SLIPS.length)];
  if (!victim || !slip) return undefined;
  const effects = slipEffects(page, victim);
  const effect = effects[slip][random.below(effects[slip].length)] ?? 0;
  const others = SLIPS.filter((name) => name !== slip).flatMap((name) => effects[name]);
  if (Math.abs(effect) < LEAST_EFFECT_ARCMIN) return undefined;
  if (others.some((other) => Math.abs(other - effect) < LEAST_APART_ARCMIN)) return undefined;
  const tenth = (nm: number) => Math.round(nm * 10) / 10;
  const rows = page.rows.map((row) => ({
    ...row,
    interceptNm: tenth(row.interceptNm + (row === victim ? effect : 0)),
  }));
  return { ...page, rows };
}
