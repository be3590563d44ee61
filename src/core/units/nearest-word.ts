/** Letters and digits only, lower case: how heads and words are compared. */
export function plainWord(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '');
}

/** The word that differs least from `text`, if it differs by a third of its letters at most. */
export function nearest(text: string, words: readonly string[]): string | undefined {
  const wanted = plainWord(text);
  let best: string | undefined;
  let least = Infinity;
  for (const word of words) {
    const distance = editDistance(wanted, plainWord(word));
    if (distance < least) [best, least] = [word, distance];
  }
  return best !== undefined && least <= Math.max(1, Math.floor(plainWord(best).length / 3))
    ? best
    : undefined;
}

/** How many letters must be put in, taken out, changed or swapped with their neighbour. */
export function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  const cell = (i: number, j: number) => rows[i]?.[j] ?? Infinity;
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    rows.push(row);
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      const swapped =
        a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? cell(i - 2, j - 2) + 1 : Infinity;
      row[j] = Math.min(
        cell(i - 1, j) + 1,
        (row[j - 1] ?? 0) + 1,
        cell(i - 1, j - 1) + same,
        swapped,
      );
    }
  }
  return cell(a.length, b.length);
}
