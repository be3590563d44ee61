/** Typesets formulas; loaded when the first one is opened. */
export interface Formulas {
  /** Puts the formula into `host`. What cannot be typeset appears as its source text. */
  typeset(host: HTMLElement, latex: string): void;
}

let loading: Promise<Formulas> | undefined;

/** KaTeX, bundled with us. Links and HTML in a formula are refused (`trust: false`). */
export function loadFormulas(): Promise<Formulas> {
  return (loading ??= import('./katex.js').then((m) => m.katexFormulas()));
}
