/** Global object through which compiled cells reach the session. */
export const RUNTIME = '__cell';
