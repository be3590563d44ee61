import type { MimeBundle } from '../mime.js';

/** What stands for the id while a view's data are made. */
const TO_COME = 'to come';
const OURS = 'application/vnd.cocked-hat.';

/** How many views with the same data this session has shown, by the sum of their data. */
const counts = new Map<string, number>();

/**
 * The id of a view comes from its data, so that running a notebook again gives the same outputs, byte for byte. Views with
 * the same data are counted in the order in which they are first shown.
 */
export function newViewId(bundle: MimeBundle): string {
  const ours = Object.entries(bundle).filter(([type]) => type.startsWith(OURS));
  const sum = sumOf(JSON.stringify(ours.length > 0 ? ours : bundle));
  const count = (counts.get(sum) ?? 0) + 1;
  counts.set(sum, count);
  return count === 1 ? sum : `${sum}-${count}`;
}

/** The bundle with the id that `make` was given, but not the id itself yet. */
export const withoutId = (make: (viewId: string) => MimeBundle): MimeBundle => make(TO_COME);

/** The bundle with its id in the data. */
export function withId(bundle: MimeBundle, viewId: string): MimeBundle {
  const whole = { ...bundle };
  for (const [type, data] of Object.entries(bundle))
    if (typeof data === 'object' && data !== null && 'viewId' in data && data.viewId === TO_COME)
      whole[type] = { ...data, viewId };
  return whole;
}

/** 64 bits as 16 hexadecimal digits: FNV-1a, and beside it the same steps with another start and factor (any odd one does). */
function sumOf(text: string): string {
  let [a, b] = [0x811c9dc5, 0x1b873593];
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    a = Math.imul(a ^ unit, 0x01000193);
    b = Math.imul(b ^ unit, 0x85ebca6b);
  }
  return [a, b].map((half) => (half >>> 0).toString(16).padStart(8, '0')).join('');
}
