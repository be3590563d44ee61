import { Instant } from '../../core/units/index.js';

/** One press at a time signal. */
export interface ClockCheck {
  readonly id: string;
  /** What the clock of the device showed at the press, milliseconds since 1970. */
  readonly deviceMs: number;
  /** UTC that the signal stood for. */
  readonly signalMs: number;
  /** What gave the signal: `radio time signal`. */
  readonly signal: string;
}

/** The error of the device's clock, and the checks it comes from. */
export interface ClockError {
  /** Seconds the device is fast on UTC; slow is negative. */
  readonly fastS: number;
  /** One or two moments: the check before, the check after. */
  readonly checks: readonly CheckedMoment[];
}

/** Presses that lie close together count as one: their mean carries less of the finger's delay. */
export interface CheckedMoment {
  readonly deviceMs: number;
  readonly fastS: number;
  readonly presses: number;
  /** The greatest less the least error among the presses, seconds. */
  readonly spreadS: number;
  readonly signal: string;
  readonly signalMs: number;
}

const TOGETHER_MS = 10 * 60_000;

/** Groups of presses no more than ten minutes apart, in order of time. */
export function checkedMoments(checks: readonly ClockCheck[]): CheckedMoment[] {
  const groups: ClockCheck[][] = [];
  for (const check of [...checks].sort((a, b) => a.deviceMs - b.deviceMs)) {
    const first = groups.at(-1)?.[0];
    if (first && check.deviceMs - first.deviceMs <= TOGETHER_MS) groups.at(-1)?.push(check);
    else groups.push([check]);
  }
  return groups.map((group) => {
    const errors = group.map((c) => (c.deviceMs - c.signalMs) / 1000);
    const mean = (of: readonly number[]) => of.reduce((a, b) => a + b, 0) / of.length;
    const last = group.at(-1) as ClockCheck;
    return {
      deviceMs: mean(group.map((c) => c.deviceMs)),
      fastS: mean(errors),
      presses: group.length,
      spreadS: Math.max(...errors) - Math.min(...errors),
      signal: last.signal,
      signalMs: last.signalMs,
    };
  });
}

/**
 * The error of the device's clock at a moment: between two checks in proportion to the time, outside them that of the
 * nearer one (a rate is not carried on beyond the checks that show it).
 * @returns null without any check
 */
export function clockErrorAt(checks: readonly ClockCheck[], deviceMs: number): ClockError | null {
  const moments = checkedMoments(checks);
  const before = moments.findLast((m) => m.deviceMs <= deviceMs);
  const after = moments.find((m) => m.deviceMs > deviceMs);
  if (before && after) {
    const share = (deviceMs - before.deviceMs) / (after.deviceMs - before.deviceMs);
    return { fastS: before.fastS + share * (after.fastS - before.fastS), checks: [before, after] };
  }
  const only = before ?? after;
  return only ? { fastS: only.fastS, checks: [only] } : null;
}

/** `1.3 s fast`, `0.4 s slow`, `0.0 s`. */
export function clockErrorText(fastS: number): string {
  const size = Math.abs(fastS).toFixed(1);
  if (Number(size) === 0) return '0.0 s';
  return `${size} s ${fastS < 0 ? 'slow' : 'fast'}`;
}

/** UTC of a reading of the device's clock, to a tenth of a second; as the clock shows it where nothing was checked. */
export function utcOf(checks: readonly ClockCheck[], deviceMs: number): number {
  const error = clockErrorAt(checks, deviceMs);
  return Math.round((deviceMs - (error?.fastS ?? 0) * 1000) / 100) * 100;
}

/** `2027-05-11 09:42:17.3`: the form of a sight log. */
export function stamp(ms: number): string {
  const tenths = Math.round(ms / 100);
  const text = Instant.fromEpochMs(Math.floor(tenths / 10) * 1000).toString();
  return `${text.replace(' UTC', '')}.${tenths - Math.floor(tenths / 10) * 10}`;
}

/** The whole minute nearest to what the device shows: what a time signal most likely stood for. */
export const nearestMinute = (deviceMs: number): number => Math.round(deviceMs / 60_000) * 60_000;

/** What a log says about the clock behind a time. */
export function clockRemark(error: ClockError | null): string {
  if (!error) return 'device clock, not checked against a time signal';
  const checks = error.checks.map(
    ({ fastS, signal, signalMs, presses }) =>
      `${clockErrorText(fastS)} at ${stamp(signalMs).replace(/\.0$/, '')} UTC by ${signal}${presses > 1 ? `, ${presses} presses` : ''}`,
  );
  return `device clock checked: ${checks.join('; and ')}`;
}

/** Whether a kept item is a check. */
export function isClockCheck(value: unknown): value is ClockCheck {
  const c = value as Partial<Record<keyof ClockCheck, unknown>> | null;
  return (
    typeof c === 'object' &&
    c !== null &&
    Number.isFinite(c.deviceMs) &&
    Number.isFinite(c.signalMs) &&
    typeof c.signal === 'string'
  );
}
