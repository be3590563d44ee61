/** What the notebook's questions expect and what they give, as found after a teacher's run. */
export interface ExpectedFigures {
  readonly figures: readonly string[];
  readonly printed: string;
}

/**
 * A cell to run after a teacher's edition: prints the figures of every question's expected working, as printed and
 * unrounded, and all that the questions give openly.
 */
export const EXPECTED_FIGURES_CELL = `
const { Question, quantities } = await import('cocked-hat');
const asked = Object.values(globalThis).filter((value) => value instanceof Question);
const figures = asked.flatMap((q) =>
  [...q.expected()].flatMap(([id, value]) => {
    const quantity = quantities[q.line(id).quantity];
    if (typeof value === 'string') return [];
    const base = quantity.base(value);
    const unrounded = [base, value.degrees, value.radians].filter(Number.isFinite);
    return [quantity.print(value), ...unrounded.map((n) => String(Math.abs(n)).slice(0, 8))];
  }),
);
const printed = asked.map((q) => JSON.stringify([q.printed, q.table, q.task])).join('\\n');
console.log(JSON.stringify({ figures, printed }));
`;

/** Reads what that cell printed. @throws Error when it did not run */
export function readExpected(events: readonly { readonly type: string }[]): ExpectedFigures {
  const text = events
    .filter((e): e is { type: 'stream'; name: string; text: string } => e.type === 'stream')
    .filter((e) => e.name === 'stdout')
    .map((e) => e.text)
    .join('');
  if (text === '') throw new Error('the figures that the questions expect could not be found out');
  return JSON.parse(text) as ExpectedFigures;
}
