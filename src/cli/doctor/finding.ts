/** What one check of the installation found. */
export interface Finding {
  readonly subject: string;
  readonly state: 'good' | 'note' | 'bad';
  /** One sentence or a version. */
  readonly text: string;
  /** What to do; always there when the state is bad. */
  readonly remedy?: string;
}

export const good = (subject: string, text: string): Finding => ({ subject, state: 'good', text });

/** Something that matters only to some, such as a browser for the tests. */
export const note = (subject: string, text: string, remedy: string): Finding => ({
  subject,
  state: 'note',
  text,
  remedy,
});

export const bad = (subject: string, text: string, remedy: string): Finding => ({
  subject,
  state: 'bad',
  text,
  remedy,
});
