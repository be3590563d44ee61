/** What a working was worked out from, so that a view can work it out again with other figures. */
export interface Subject {
  /** Name of the function that made it: `observedAltitude`, `dip`. */
  readonly procedure: string;
  /** What that function was given. */
  readonly given: readonly unknown[];
}

const subjects = new WeakMap<object, Subject>();

/**
 * Notes what a working was made from; returns the working.
 * @param procedure name of the public function that made it
 * @param given what that function was given
 */
export function workedFrom<W extends object>(
  working: W,
  procedure: string,
  ...given: readonly unknown[]
): W {
  subjects.set(working, Object.freeze({ procedure, given: Object.freeze([...given]) }));
  return working;
}

/** What a working was made from; undefined where that was not noted. */
export const subjectOf = (working: object): Subject | undefined => subjects.get(working);
