/** Keeps a value in this browser; a page that may not keep anything works on without. @returns whether it is kept */
export function keep(key: string, value: unknown): boolean {
  try {
    localStorage.setItem(`cocked-hat:${key}`, JSON.stringify(value));
    return true;
  } catch {
    // A page from a memory stick or a private window may refuse: the value lives as long as the page.
    return false;
  }
}

/** What was kept, or undefined. */
export function kept(key: string): unknown {
  try {
    const text = localStorage.getItem(`cocked-hat:${key}`);
    return text === null ? undefined : JSON.parse(text);
  } catch {
    return undefined;
  }
}
