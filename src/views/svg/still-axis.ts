/** What our figures say of an axis, in plotly's words. */
export interface AxisLayout {
  readonly type?: string;
  readonly title?: { readonly text?: string };
  readonly range?: readonly number[];
  readonly tickvals?: readonly (number | string)[];
  readonly ticktext?: readonly string[];
  readonly ticksuffix?: string;
  readonly tickformat?: string;
  readonly autorange?: string;
}

/** One axis of a still plot. */
export interface StillAxis {
  readonly title: string;
  /** Where a value lies: 0 at its beginning, 1 at its end; undefined when it lies beyond or is none. */
  at(value: unknown): number | undefined;
  readonly ticks: readonly { readonly at: number; readonly label: string }[];
}

const MINUTE_MS = 60_000;
const DATE_STEPS_MIN = [1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440, 2880, 4320, 7200, 14400];

const dateMs = (value: unknown) =>
  typeof value === 'string' ? Date.parse(`${value.replace(' ', 'T')}Z`) : NaN;
const toNumber = (value: unknown) => (typeof value === 'number' ? value : NaN);

/** The axis of the values on it, with at most so many ticks. */
export function stillAxis(layout: AxisLayout, values: readonly unknown[], most: number): StillAxis {
  const title = layout.title?.text ?? '';
  if (layout.type === 'category') return { title, ...categories(layout, values) };
  const isDate = layout.type === 'date';
  const read = isDate ? dateMs : toNumber;
  const known = values.map(read).filter(Number.isFinite);
  const [least, greatest] = known.length ? [Math.min(...known), Math.max(...known)] : [0, 1];
  const room = 0.05 * (greatest - least || 1);
  const [low = 0, high = 1] = layout.range ?? [least - room, greatest + room];
  const part = (v: number) => (v - low) / (high - low);
  const named = (layout.tickvals ?? []).map(
    (v, i) => [read(v), layout.ticktext?.[i] ?? ''] as const,
  );
  const ticks = layout.tickvals
    ? named
    : isDate
      ? dateTicks(low, high, most)
      : plainTicks(low, high, most, layout.ticksuffix ?? '');
  return {
    title,
    at: (value) => within(part(read(value))),
    ticks: ticks.flatMap(([v, label]) => {
      const at = within(part(v));
      return at === undefined ? [] : [{ at, label }];
    }),
  };
}

const within = (part: number) => (part >= 0 && part <= 1 ? part : undefined);

function categories({ autorange }: AxisLayout, values: readonly unknown[]) {
  const names = [...new Set(values.map(String))];
  const at = (value: unknown) => {
    const i = names.indexOf(String(value));
    if (i < 0) return undefined;
    const part = (i + 0.5) / names.length;
    return autorange === 'reversed' ? 1 - part : part;
  };
  return { at, ticks: names.map((label) => ({ at: at(label) ?? 0, label })) };
}

type Tick = readonly [value: number, label: string];

function dateTicks(low: number, high: number, most: number): Tick[] {
  const minutes = (high - low) / MINUTE_MS;
  const step = MINUTE_MS * (DATE_STEPS_MIN.find((s) => minutes / s < most) ?? 43_200);
  const day = (ms: number) =>
    new Date(ms).toLocaleDateString('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' });
  const clock = (ms: number) => new Date(ms).toISOString().slice(11, 16);
  return multiples(low, high, step).map((ms, i) => [
    ms,
    step >= 1440 * MINUTE_MS ? day(ms) : `${clock(ms)}${i === 0 ? `\n${day(ms)}` : ''}`,
  ]);
}

function plainTicks(low: number, high: number, most: number, suffix: string): Tick[] {
  const rough = (high - low) / most;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = ten * ([1, 2, 5, 10].find((m) => m * ten >= rough) ?? 10);
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const text = (v: number) => `${Math.abs(v).toFixed(digits)}${suffix}`;
  return multiples(low, high, step).map((v) => [v, v < -step / 2 ? `−${text(v)}` : text(v)]);
}

function multiples(low: number, high: number, step: number): number[] {
  const first = Math.ceil(low / step);
  return Array.from({ length: Math.floor(high / step) - first + 1 }, (_, i) => (first + i) * step);
}
