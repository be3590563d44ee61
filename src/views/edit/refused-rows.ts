import type { Amendment, Draft } from '../../log/amend/amendment.js';
import type { RefusedEntries } from './edit-data.js';
import type { Texts } from './sheet-parts.js';

/** Refused rows that neither stand as new readings yet nor were taken as such, as they were or mended. */
export function stillRefused(
  refused: readonly RefusedEntries[],
  drafts: readonly Draft[],
  amendments: readonly Amendment[],
): readonly RefusedEntries[] {
  const typed = [
    ...drafts.flatMap(({ which, entries }) => (which === null ? [entries] : [])),
    ...amendments.flatMap((a) => (a.kind === 'add' ? [a.entries] : [])),
  ];
  return refused.filter(({ texts }) => !typed.some((entries) => isMendedFrom(entries, texts)));
}

/** Entries in which a mended row may differ from the refused one. */
const MOST_MENDED = 3;

/** Whether these entries are a refused row, mended or about to be. */
function isMendedFrom(entries: Texts, refused: Texts): boolean {
  const names = Object.keys(refused);
  const differing = names.filter((name) => entries[name] !== refused[name]).length;
  return differing <= Math.min(MOST_MENDED, names.length - 2);
}
