/** Publishing, marking or reproducing cannot go on, for a reason that can be told; `remedy` says what to do. */
export class PublishError extends Error {
  override readonly name = 'PublishError';
  constructor(
    message: string,
    readonly remedy: string,
  ) {
    super(message);
  }
}
