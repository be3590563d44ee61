/** A cell that a spreadsheet would take for a formula; the full-width forms too. */
const FORMULA = /^'*[=+\-@\t\r＝＋－＠]/;
/** A plain number is no formula, whatever its sign. */
const NUMBER = /^[+-]?\d+(?:[.,]\d+)?$/;
const GUARDED = /^'+[=+\-@\t\r＝＋－＠]/;

/**
 * Puts an apostrophe before a cell that a spreadsheet would run as a formula (OWASP, "CSV Injection").
 * `unguardFormula` takes exactly that one off again, so nothing changes by writing and reading.
 */
export function guardFormula(cell: string): string {
  return FORMULA.test(cell) && !NUMBER.test(cell) ? `'${cell}` : cell;
}

/** Takes off the apostrophe that `guardFormula` put on. */
export function unguardFormula(cell: string): string {
  return GUARDED.test(cell) ? cell.slice(1) : cell;
}
