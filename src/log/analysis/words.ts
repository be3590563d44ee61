import { counted } from '../../core/units/counted.js';
import { formatCorrection } from '../../core/units/index.js';
import type { Estimate } from '../statistics/intervals.js';

/** `0.9′ (95 %: 0.7′ to 1.1′)`; signs where they are wanted. @param after said once, behind the value: `a day` */
export function estimateText(
  e: Estimate,
  unit = '′',
  decimals = 1,
  signed = false,
  after = '',
): string {
  const joined = /^[′°]/.test(unit) ? unit : unit ? ` ${unit}` : '';
  const one = (v: number) => {
    const size = Math.abs(v).toFixed(decimals);
    const sign = Number(size) === 0 ? '' : v < 0 ? '−' : signed ? '+' : '';
    return `${sign}${size}${joined}`;
  };
  const value = one(e.value) + (after ? ` ${after}` : '');
  if (!Number.isFinite(e.low) || !Number.isFinite(e.high))
    return `${value} (${counted(e.n, 'value')}: no interval)`;
  return `${value} (${percent(e.level)}: ${one(e.low)} to ${one(e.high)})`;
}

/** The estimate turned so that its value is positive. */
export function sizeOf(e: Estimate): Estimate {
  return e.value < 0 ? { ...e, value: -e.value, low: -e.high, high: -e.low } : e;
}

export const percent = (level: number): string => `${Number((level * 100).toFixed(1))} %`;
export const signedMinutes = (arcmin: number): string => formatCorrection(arcmin, 1);

/** `p = 0.31`, or `p < 0.001`. */
export const probabilityText = (p: number): string =>
  p < 0.001 ? 'p < 0.001' : `p = ${p.toFixed(p < 0.1 ? 3 : 2)}`;

/** Whether the interval leaves zero out. */
export const clear = (e: Estimate): boolean => e.low > 0 || e.high < 0;
