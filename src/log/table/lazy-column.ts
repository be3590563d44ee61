/** A column of an arquero table that is worked out when it is first looked at. */
export class LazyColumn<T> {
  private values: ArrayLike<T> | null = null;
  constructor(
    readonly length: number,
    private readonly work: () => ArrayLike<T>,
  ) {}
  /** Whether the column has been worked out. */
  get done(): boolean {
    return this.values !== null;
  }
  at(row: number): T | undefined {
    this.values ??= this.work();
    return this.values[row];
  }
  *[Symbol.iterator](): Iterator<T | undefined> {
    for (let i = 0; i < this.length; i++) yield this.at(i);
  }
}
