/** One piece of the text of an angle and where it starts. `place`: 0 degrees, 1 minutes, 2 seconds. */
export type AngleToken =
  | {
      readonly kind: 'number' | 'letter' | 'dash' | 'plus' | 'colon';
      readonly text: string;
      readonly at: number;
    }
  | {
      readonly kind: 'mark';
      readonly place: 0 | 1 | 2;
      readonly text: string;
      readonly at: number;
    };

const SPACE = /[\s\u00a0\u2009\u202f]+/y;
const NUMBER = /\d+(?:\.\d*)?|\.\d+/y;
const DEGREE = /[°º˚]|(?:degrees?|deg|d)(?![a-z])/iy;
const SECOND = /″|''|′′|’’|´´|``|["”“]|(?:seconds?|sec)(?![a-z])/iy;
const MINUTE = /[′'’‘´`ʹ]|(?:minutes?|min|m)(?![a-z])/iy;
const LETTER = /[NSEW](?![a-z])|(?:north|south|east|west)(?![a-z])/iy;

/** Splits the text of an angle into tokens. Unknown characters are refused where they stand. */
export function scanAngle(
  text: string,
  refuse: (problem: string, at?: number) => never,
): AngleToken[] {
  const tokens: AngleToken[] = [];
  let at = 0;
  const match = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    return pattern.exec(text)?.[0];
  };
  while (at < text.length) {
    const found = match(SPACE);
    if (found) {
      at += found.length;
      continue;
    }
    const token = nextToken(text, at, match);
    if (!token) {
      if (text[at] === ',') refuse('A comma is not used here; write a decimal point.', at);
      return refuse(
        `'${String.fromCodePoint(text.codePointAt(at) ?? 0)}' does not belong in an angle.`,
        at,
      );
    }
    tokens.push(token.token);
    at += token.length;
  }
  return tokens;
}

function nextToken(
  text: string,
  at: number,
  match: (pattern: RegExp) => string | undefined,
): { token: AngleToken; length: number } | undefined {
  const plain = (kind: 'number' | 'dash' | 'plus' | 'colon', found: string) => ({
    token: { kind, text: found, at } as AngleToken,
    length: found.length,
  });
  const number = match(NUMBER);
  if (number) return plain('number', number);
  const marks = [match(DEGREE), match(SECOND) ? undefined : match(MINUTE), match(SECOND)];
  for (const [place, found] of marks.entries())
    if (found)
      return {
        token: { kind: 'mark', place: place as 0 | 1 | 2, text: found, at },
        length: found.length,
      };
  const letter = match(LETTER);
  if (letter)
    return {
      token: { kind: 'letter', text: letter.charAt(0).toUpperCase(), at },
      length: letter.length,
    };
  const c = text[at] ?? '';
  if ('-−–'.includes(c)) return plain('dash', c);
  if (c === '+') return plain('plus', c);
  if (c === ':') return plain('colon', c);
  return undefined;
}
