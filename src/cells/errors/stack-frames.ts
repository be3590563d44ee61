/** One line of a V8 stack trace. */
export interface StackFrame {
  readonly name: string | null;
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** The frames of a V8 stack trace, innermost first. */
export function parseStack(stack: string): StackFrame[] {
  return stack.split('\n').flatMap((line) => {
    const match = /^\s*at (?:(.*) \()?(.+):(\d+):(\d+)\)?$/.exec(line);
    if (!match?.[2]) return [];
    const name = match[1]?.replace(/^async /, '').replace(/ \[as [^\]]+\]$/, '') ?? null;
    const file = match[2].replace(/^async /, '');
    return [{ name, file, line: Number(match[3]), column: Number(match[4]) }];
  });
}
