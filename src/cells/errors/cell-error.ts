/** An error as notebooks keep it; `traceback` is ready to print and may hold colour codes. */
export interface CellError {
  readonly ename: string;
  readonly evalue: string;
  readonly traceback: readonly string[];
}

/** What a cell ends with when the user stops it. */
export class KeyboardInterrupt extends Error {
  override readonly name = 'KeyboardInterrupt';
  constructor() {
    super('the cell was interrupted');
  }
}
