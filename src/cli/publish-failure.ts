import { PublishError } from '../publish/index.js';
import { JobError } from './errors.js';

/** A failure of a command that writes editions or marks, as the user is told it: with a remedy where one is known. */
export function publishFailure(error: unknown): unknown {
  if (error instanceof PublishError)
    return new JobError(error.message, error.remedy, { cause: error });
  if (error instanceof RangeError) return new JobError(`${error.message}. Nothing was written`);
  return error;
}
