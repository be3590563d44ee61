/** Number of single-letter edits (insert, delete, replace, swap of neighbours) from one word to another. */
export function editDistance(from: string, to: string): number {
  const rows = [Array.from({ length: to.length + 1 }, (_, column) => column)];
  const at = (row: number, column: number) => rows[row]?.[column] ?? Infinity;
  for (let row = 1; row <= from.length; row++) {
    rows[row] = [row];
    for (let column = 1; column <= to.length; column++) {
      const same = from[row - 1] === to[column - 1];
      const swapped = from[row - 2] === to[column - 1] && from[row - 1] === to[column - 2];
      rows[row]![column] = Math.min(
        at(row - 1, column) + 1,
        at(row, column - 1) + 1,
        at(row - 1, column - 1) + (same ? 0 : 1),
        swapped ? at(row - 2, column - 2) + 1 : Infinity,
      );
    }
  }
  return at(from.length, to.length);
}

/** The word that was probably meant: the nearest one, at most a third of its letters away; else undefined. */
export function nearestWord(word: string, words: readonly string[]): string | undefined {
  const ranked = words
    .map((candidate) => ({ candidate, edits: editDistance(word.toLowerCase(), candidate) }))
    .sort((a, b) => a.edits - b.edits);
  const best = ranked[0];
  if (!best || best.edits > Math.max(1, Math.floor(best.candidate.length / 3))) return undefined;
  return best.candidate;
}
