/** Wrong arguments: the message names the mistake and shows the right form. Exit code 2. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}

/** The job failed for a reason that can be told; `remedy` says what the user can do. Exit code 1. */
export class JobError extends Error {
  override readonly name = 'JobError';
  constructor(
    message: string,
    readonly remedy = '',
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}
