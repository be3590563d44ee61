/** A cell of the corpus and what it must do; every cell must also do the same in every host. */
export interface CorpusCell {
  readonly code: string;
  /** Text of the result; null for none. */
  readonly result?: string | null;
  /** What is printed to stdout. */
  readonly out?: string;
  /** Name of the error it ends with. */
  readonly error?: string;
  /** Text that the error message contains. */
  readonly says?: string;
  /** Line and column the report points at. */
  readonly at?: string;
}

/** A cell with its result. */
export const gives = (code: string, result: string | null): CorpusCell => ({ code, result });
/** A cell that only sets names. */
export const sets = (code: string): CorpusCell => ({ code, result: null });
/** A cell that prints. */
export const prints = (code: string, out: string): CorpusCell => ({ code, out });
/** A cell that fails. */
export const fails = (code: string, error: string, says = '', at = ''): CorpusCell => ({
  code,
  error,
  says,
  at,
});
