import type { BodyName } from '../../core/sky/index.js';
import type { HorizonWindow } from '../../core/plan/index.js';
import { formatAngle, formatBearing } from '../../core/units/index.js';
import type { PlainTable } from '../plain-table.js';
import type { SetFound, SkyBody, SkyModel, SkyMoment, SkySettings } from './sky-model.js';
import { clock, presetText } from './sky-text.js';

/** A row of the table for the deck. */
export interface DeckRow {
  readonly body: BodyName;
  /** `Moon, upper limb`: what the presets are for. */
  readonly name: string;
  /** Place in the order of taking; null for a body outside the set. */
  readonly number: number | null;
  readonly group: 'set' | 'reach' | 'beyond';
  readonly azimuth: string;
  readonly altitude: string;
  /** One for each time of the table. */
  readonly presets: readonly string[];
  readonly magnitude: string;
  /** Why it is not in the set, where a reason is known. */
  readonly reason: string;
}

const STEP_MS = 10 * 60_000;
const MOST_TIMES = 5;
const SLACK_MS = 5 * 60_000;

/** The times a table gives presets for: every ten minutes about the moment, inside the window when it lies in one. */
export function deckTimes(
  atMs: number,
  windows: readonly HorizonWindow[],
  [firstMs, lastMs]: readonly [number, number],
): number[] {
  const around = windows.find(
    (w) => w.starts.epochMs - SLACK_MS <= atMs && atMs <= w.ends.epochMs + SLACK_MS,
  );
  const from = Math.max(firstMs, around ? around.starts.epochMs - SLACK_MS : atMs - STEP_MS);
  const to = Math.min(lastMs, around ? around.ends.epochMs + SLACK_MS : atMs + STEP_MS);
  const half = (MOST_TIMES - 1) / 2;
  return Array.from({ length: MOST_TIMES }, (_, i) => atMs + (i - half) * STEP_MS).filter(
    (ms) => ms === atMs || (ms >= from && ms <= to),
  );
}

const GROUPS = ['set', 'reach', 'beyond'] as const;

/** All bodies above the horizon: the set in the order to take it, others in reach, and those too low or too high. */
export function deckRows(
  model: SkyModel,
  moment: SkyMoment,
  found: SetFound,
  settings: SkySettings,
  times: readonly number[],
): DeckRow[] {
  const order: readonly BodyName[] = found.set ? found.order : [];
  const left = new Map(found.set?.leftOut.map((l) => [l.body, l.reason]) ?? []);
  const rows = moment.bodies.map((b): DeckRow => {
    const number = order.indexOf(b.body) + 1 || null;
    const group = number !== null ? 'set' : b.isInReach ? 'reach' : 'beyond';
    return {
      body: b.body,
      name: b.name,
      number,
      group,
      azimuth: formatBearing(b.azDeg),
      altitude: formatAngle(b.altDeg),
      presets: times.map((ms) => presetText(model.presetAt(b.body, ms, settings))),
      magnitude: b.magnitude === null ? '' : signed(b.magnitude),
      reason: reasonFor(b, settings, left.get(b.body)),
    };
  });
  const rank = (r: DeckRow) => r.number ?? 99;
  return rows.sort(
    (a, b) => GROUPS.indexOf(a.group) - GROUPS.indexOf(b.group) || rank(a) - rank(b),
  );
}

/** `−1.4`, never `−0.0`. */
function signed(magnitude: number): string {
  const tenths = Math.round(magnitude * 10);
  return `${tenths < 0 ? '−' : ''}${(Math.abs(tenths) / 10).toFixed(1)}`;
}

function reasonFor(b: SkyBody, s: SkySettings, left: string | undefined): string {
  if (s.hidden.includes(b.body)) return 'not to be taken';
  if (left) return left;
  if (b.altDeg < s.lowestDeg) return 'too low';
  return b.altDeg > s.highestDeg ? 'too high' : '';
}

/** The table of a still picture or a text: what a reader of paper needs. */
export function deckTable(rows: readonly DeckRow[], times: readonly number[]): PlainTable {
  return {
    caption: 'To take on deck',
    heads: ['Body', 'No.', 'Azimuth T', ...times.map((ms) => `Set at ${clock(ms)}`), 'Magnitude'],
    rows: rows
      .filter((r) => r.group !== 'beyond')
      .map((r) => [
        r.name,
        r.number === null ? '' : String(r.number),
        r.azimuth,
        ...r.presets,
        r.magnitude,
      ]),
  };
}

export const CAUTIONS: readonly string[] = [
  'Presets and azimuths are for the DR: look for the body near them, not only at them.',
  'East first: in the evening its stars show first and its horizon goes first; in the morning its stars go first.',
  'Shades before both mirrors before the Sun is looked at. Never rely on one means of fixing.',
];
