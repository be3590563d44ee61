/** A cell that is not valid TypeScript; `line` and `column` count from 1 in the cell. */
export class CellSyntaxError extends SyntaxError {
  override readonly name = 'SyntaxError';
  constructor(
    message: string,
    readonly line: number,
    readonly column: number,
  ) {
    super(message);
  }
}
