/** What to write instead where the grammar of a cell is wrong: TypeScript says `',' expected` of most of it. */
import type { Diagnostic } from './type-engine.js';

const QUOTED = "between quotation marks: '34°17.6′'";
/** In the order in which they are tried; the first that fits speaks. */
const FORMS: readonly ((at: Place) => string | undefined)[] = [
  ofCurlyQuote,
  ofTradeMark,
  ofTextThatEndsEarly,
  ofWordAndQuestionMark,
  ofDeclaredName,
  ofBareText,
  ofFieldsWithoutBraces,
  ofColon,
  ofComma,
  ofImport,
  ofTwoWords,
  ofBracket,
];

/** Where a complaint stands: what is before it and what after, in its line and in the cell. */
interface Place {
  readonly code: number;
  readonly message: string;
  readonly before: string;
  readonly after: string;
  readonly earlier: string;
}

/** The right form for a complaint about grammar, in the words of a notebook's reader, or undefined where none is known. */
export function grammarForm(d: Diagnostic, source: string): string | undefined {
  const lines = source.split('\n');
  const line = lines[d.line - 1] ?? '';
  const before = line.slice(0, d.column - 1);
  const at: Place = {
    code: d.code,
    message: d.message,
    before,
    after: line.slice(d.column - 1),
    earlier: [...lines.slice(0, d.line - 1), before].join('\n').trimEnd(),
  };
  for (const form of FORMS) {
    const said = form(at);
    if (said !== undefined) return said;
  }
  return undefined;
}

/** Those of TypeScript's complaints that follow from an earlier one in the same line are left out. */
export function onePerLine(grammar: readonly Diagnostic[]): Diagnostic[] {
  const lines = new Set<number>();
  return grammar.filter(({ line }) => !lines.has(line) && lines.add(line));
}

function ofCurlyQuote({ code, after }: Place): string | undefined {
  return code === 1127 && /^[‘’‚“”„«»‹›]/.test(after)
    ? `${after[0]} is a printer’s quotation mark; a cell takes the straight ones, ' or ".`
    : undefined;
}

function ofTradeMark({ code, after }: Place): string | undefined {
  return code === 1127 && /^[°º˚′″´]/.test(after)
    ? `${after[0]} belongs in text: write the whole figure ${QUOTED}.`
    : undefined;
}

/** `'34°17.6'',` and `'A's sight'`: the mark inside ends the text. */
function ofTextThatEndsEarly({ code, before, after }: Place): string | undefined {
  if (code === 1002) return "A quotation mark is opened here and not closed: 'Sun'.";
  const opened = /(['"])$/.exec(before)?.[1];
  if (code !== 1005 || opened === undefined || !/^['"\w]/.test(after)) return undefined;
  return after.startsWith(opened)
    ? `The first ${opened} after the figure already ends the text. Write '34 17.6' or '34°17.6′' for minutes, or "34°17.6'".`
    : `The ${opened} before ${/^\W?\w*/.exec(after)![0]} ends the text; one that has a ${opened} in it stands between the other marks: "A's sight".`;
}

function ofWordAndQuestionMark({ after, earlier }: Place): string | undefined {
  return /^\?\s*$/.test(after) || (/\?\s*$/.test(earlier) && after.trim() === '')
    ? 'To see what a name takes, click into it and press Shift+Tab; Tab offers names. The guide is in the Help menu (npx cocked-hat guide).'
    : undefined;
}

/** `const first sight =`, `const first-sight =`, `const 1st =`. */
function ofDeclaredName({ before, after }: Place): string | undefined {
  const line = before + after;
  return /^\s*(?:const|let|var)\s+(?:\w+[\s-]+\w[\w\s-]*|\d\w*)\s*=/.test(line)
    ? 'A name is one word of letters and figures that begins with a letter: firstSight, sight1.'
    : undefined;
}

/** `30 34.2`, `2027-07-03 13:40:05`, `22 57 S`, `1.4 off the arc`. */
function ofBareText({ code, before, after }: Place): string | undefined {
  const bare = /(?:[:(,[]|=)\s*[\d.:-]*[\d-]$/.test(before.trimEnd()) && /^[\w:.-]/.test(after);
  return bare && (code === 1005 || code === 1121 || code === 1351)
    ? `A figure of several parts is text: it stands ${QUOTED}.`
    : undefined;
}

function ofFieldsWithoutBraces({ code, before, after }: Place): string | undefined {
  return code === 1005 && after.startsWith(':') && /\(\s*\w+\s*$/.test(before)
    ? "What belongs together stands in braces inside the brackets: sight({ body: 'Sun', … })."
    : undefined;
}

/** `limb = 'lower'` and `limb 'lower'` in a list of fields. */
function ofColon({ code, before, after }: Place): string | undefined {
  const [, name] = /(?:[{,]|^)\s*(\w+)\s*$/.exec(before) ?? [];
  const wanting = code === 1312 || (code === 1005 && /^['"\d]/.test(after));
  return wanting && name !== undefined
    ? `After the name of a field stands a colon: ${name}: …`
    : undefined;
}

/** The end of one field and the beginning of the next without a comma, perhaps in the next line. */
function ofComma({ code, message, after, earlier }: Place): string | undefined {
  if (code !== 1005 || !message.startsWith("',' expected")) return undefined;
  if (after.startsWith(';')) return 'Between the fields stands a comma, not a semicolon.';
  const next = /^\w+(?=\s*[:(])|^['"][^'"]*['"]/.exec(after)?.[0];
  return next !== undefined && /['")\]}\w]$/.test(earlier)
    ? `A comma is missing before ${next}.`
    : undefined;
}

function ofImport({ code, before }: Place): string | undefined {
  return code === 1141 && /^\s*import\b/.test(before)
    ? "The name of the library stands between quotation marks: import { sight } from 'cocked-hat'"
    : undefined;
}

function ofTwoWords({ code, after }: Place): string | undefined {
  if (code === 1435) return 'Capital and small letters are not the same here.';
  return code === 1434 || (code === 1005 && /^[A-Za-z]/.test(after))
    ? 'Two words stand side by side. A name is one word, and what it takes stands in brackets: observedAltitude(forenoon).'
    : undefined;
}

const PAIRS: Readonly<Record<string, string>> = { '(': ')', '[': ']', '{': '}' };

function ofBracket({ code, message, after, earlier }: Place): string | undefined {
  const here = /^[)\]}]/.exec(after)?.[0];
  const open = innermostOpen(earlier);
  const meant = open && PAIRS[open];
  if (here && meant && meant !== here) return `A ${meant} is missing before this ${here}.`;
  if (here && !meant && (code === 1005 || code === 1128))
    return `This ${here} closes nothing: it is one too many.`;
  const wanting = /^'([)\]}])' expected/.exec(message)?.[1];
  return wanting && `A closing ${wanting} is missing: each bracket that is opened is closed again.`;
}

/** The bracket opened last and not closed yet, texts and comments left out. */
function innermostOpen(code: string): string | undefined {
  const bare = code.replace(/'[^'\n]*'|"[^"\n]*"|`[^`]*`|\/\/.*/g, '');
  const open: string[] = [];
  for (const c of bare)
    if (c in PAIRS) open.push(c);
    else if (PAIRS[open.at(-1) ?? ''] === c) open.pop();
  return open.at(-1);
}
