import type { Types } from './open-types.js';

/** A line to a judge of types that is opened later; what is said before waits. */
export function lateLine(): Types & { open(line: Types): void } {
  const waiting: unknown[] = [];
  let listener: (message: unknown) => void = () => undefined;
  let opened: Types | null = null;
  return {
    post: (message) => void (opened ? opened.post(message) : waiting.push(message)),
    listen: (other) => (listener = other),
    end: () => opened?.end(),
    open: (line) => {
      opened = line;
      line.listen((message) => listener(message));
      for (const message of waiting.splice(0)) line.post(message);
    },
  };
}
