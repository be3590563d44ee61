const BEGIN = /^\s*(?:\/\/|#|<!--)?\s*(?:###\s*)?BEGIN (SOLUTION|HIDDEN TESTS|MARK SCHEME)\b/;
/** What was meant as a mark of a solution, and is none. */
const MISSPELT =
  /^\s*(?:\/\/|#|<!--|\/\*)\s*#*\s*(?:begin|start|end)[\s_-]*(?:of[\s_-]+)?(?:the[\s_-]+)?solutions?\b/i;
const end = (what: string) => new RegExp(`^\\s*(?://|#|<!--)?\\s*(?:###\\s*)?END ${what}\\b`);

/** The text of a cell in two parts: what a student sees, and the lines that are the solution. */
export interface SplitSource {
  readonly shown: string;
  readonly solution: readonly string[];
}

/** Left where a solution was taken out; nbgrader leaves its own stub there, by its setting `code_stub`. */
export const STUB = '// Write your lines here.';

const indentOf = (line: string): string => /^\s*/.exec(line)?.[0] ?? '';

/** The names of what was written, with nothing behind them: `dip: '−2.8′',` leaves `dip: '',` to be filled in. */
function emptyLines(solution: readonly string[], indent: string): string[] {
  return solution.flatMap((line) => {
    const name = /^(?:[\p{ID_Start}$_][\p{ID_Continue}$]*|'[^']*')(?=: *\S)/u.exec(
      line.slice(indent.length),
    )?.[0];
    return name === undefined || indentOf(line) !== indent ? [] : [`${indent}${name}: '',`];
  });
}

/**
 * Takes out what stands between `BEGIN SOLUTION` and `END SOLUTION` (and nbgrader's hidden tests and mark schemes),
 * marks included; names of lines stay, to be filled in.
 * @throws RangeError when a mark has no partner, with the line where it stands
 */
export function splitSolution(source: string): SplitSource {
  const shown: string[] = [];
  const solution: string[] = [];
  let inside: { what: string; line: number; stub: number } | undefined;
  for (const [i, line] of source.split('\n').entries()) {
    const begins = BEGIN.exec(line)?.[1];
    if (begins && inside)
      throw new RangeError(`line ${i + 1}: BEGIN ${begins} inside BEGIN ${inside.what}`);
    if (begins) {
      inside = { what: begins, line: i + 1, stub: solution.length };
      if (begins === 'SOLUTION') shown.push(`${indentOf(line)}${STUB}`);
    } else if (inside && end(inside.what).test(line)) {
      if (inside.what === 'SOLUTION')
        shown.push(...emptyLines(solution.slice(inside.stub), indentOf(shown.at(-1) ?? '')));
      inside = undefined;
    } else if (inside) solution.push(line);
    else if (/^\s*(?:\/\/|#)\s*(?:###\s*)?END SOLUTION\b/.test(line))
      throw new RangeError(`line ${i + 1}: END SOLUTION without BEGIN SOLUTION`);
    else if (MISSPELT.test(line))
      throw new RangeError(
        `line ${i + 1}: '${line.trim().slice(0, 40)}' is no mark, and students would see what stands below it`,
      );
    else shown.push(line);
  }
  if (inside)
    throw new RangeError(`line ${inside.line}: BEGIN ${inside.what} has no END ${inside.what}`);
  return { shown: shown.join('\n'), solution };
}
