/** A correction of one entry: what stood there, as a check, and what is right. */
export interface Corrected {
  readonly was: string;
  readonly is: string;
}

/** One amendment of a log as plain data. Readings go by their labels, `12 Sun 09:42:17`. */
export type Amendment =
  | {
      readonly kind: 'correct';
      readonly which: string;
      readonly entries: Readonly<Record<string, Corrected>>;
    }
  | { readonly kind: 'add'; readonly entries: Readonly<Record<string, string>> }
  | { readonly kind: 'reject'; readonly which: readonly string[]; readonly reason: string }
  | { readonly kind: 'accept'; readonly which: readonly string[] }
  | {
      readonly kind: 'group';
      readonly which: readonly string[];
      readonly round: string;
      readonly sight: string;
    };

/** Entries typed that cannot be taken as they are; `which` is null for a reading that is not in the log yet. */
export interface Draft {
  readonly which: string | null;
  readonly entries: Readonly<Record<string, string>>;
}
