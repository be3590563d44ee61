/** What to write instead, for complaints that TypeScript words for programmers. */
import { nearest } from '../../core/units/nearest-word.js';
import type { Diagnostic } from './type-engine.js';

/** Names that a cell may import from the library. */
export type LibraryNames = readonly string[];

/** What stands in the line before and behind the word of a complaint. */
export interface WordPlace {
  readonly before: string;
  readonly after: string;
}

/** How a value of each type is written, by the name TypeScript prints. */
export const WRITTEN: Readonly<Record<string, string>> = {
  LengthText: "A length is a number, a space and its unit, as text: '2.6 m', '8.5 ft', '0.4 nmi'.",
  SpeedText: "A speed is a number, a space and its unit, as text: '5.2 kn'.",
  TemperatureText: "A temperature is a number, a space and its unit, as text: '18 °C', '64 °F'.",
  PressureText: "A pressure is a number, a space and its unit, as text: '1013 hPa', '29.92 inHg'.",
  Position: "A position is written position('19°31′ S, 001°12′ W').",
  Limb: "A limb is 'lower', 'upper' or 'centre'.",
  BodyName: "A body is 'Sun', 'Moon', a planet ('Venus') or a star by its name ('Arcturus').",
  ResidualAxis:
    "Residuals are laid out by 'time', 'altitude', 'azimuth', 'body', 'observer' or 'run'.",
  Observed: "This takes a sight: sight({ body: 'Sun', … }).",
  SightLog:
    'This takes a sight log, SightLog.fromCsv(await readText(…)), or a fix of several sights.',
  'string | Angle': "An angle is written as text: '41°18.6′', a course or bearing '312°'.",
  'string | Angle | Working<Angle>':
    "An index error is written '1.4′ off the arc' or '0.8′ on the arc', 'none' when there is none.",
  'string | Instant': "A time is written as text: '2027-05-11 09:42:17 UTC'.",
  Angle: "An angle is made from text by angle('1.4′').",
  Length: "A length is made from text by length('2.6 m').",
  Speed: "A speed is made from text by speed('5.2 kn').",
  Instant: "An instant is made by Instant.utc('2027-05-11T09:42:17').",
};

const QUANTITIES = /\b(?:Angle|Length|Speed|Temperature|Pressure)\b/;
const UNKNOWN_NAME = /^Cannot find name '([^']+)'/;

/** The types that the complaint names as wanted, the innermost first. */
function wanted(message: string): string[] {
  const found = [...message.matchAll(/assignable to (?:parameter of )?type '([^']+)'/g)];
  return found.reverse().map((match) => match[1]!.replace(/^OneOrMore<(.*)>$/, '$1'));
}

/** In the order of the union, so that the text a person would write comes before the value itself. */
function writtenAs(type: string): string | undefined {
  return (
    WRITTEN[type] ??
    type
      .split(' | ')
      .map((part) => WRITTEN[part])
      .find(Boolean)
  );
}

function ofUnknownName(name: string, library: LibraryNames, { before, after }: WordPlace): string {
  if (name === 'help')
    return 'Tab offers names while you type, Shift+Tab shows what one takes; the guide in the Help menu explains the rest (npx cocked-hat guide)';
  const small = name.charAt(0).toLowerCase() + name.slice(1);
  // A class is made with `new` or asked by a dot; called like a function, its function is meant.
  const called = small !== name && after.startsWith('(') && !/\bnew\s*$/.test(before);
  if (called && library.includes(small)) return meant(small);
  if (library.includes(name)) return `It is in the library: import { ${name} } from 'cocked-hat'`;
  if (before.trim() === '' && /^\s*=(?!=)/.test(after))
    return `A new name is made by const: const ${name} = …`;
  const near = nearest(name, library);
  if (near) return meant(near);
  const unknown = `No cell run so far makes ${name}: run the one that does, and after a restart of the kernel all of them.`;
  return /\w\s*:\s*$/.test(before) && /^\s*(?:[,}]|$)/.test(after)
    ? `If it is a word and not a name, it stands between quotation marks: '${name}'. ${unknown}`
    : unknown;
}

const meant = (name: string) =>
  `Is ${name} meant? It is in the library: import { ${name} } from 'cocked-hat'`;

/** A library that is not found, or taken whole where names of it are meant. */
function ofImport(message: string): string | undefined {
  const unknown = /^Cannot find module '([^']+)'/.exec(message)?.[1];
  if (unknown !== undefined && nearest(unknown, ['cocked-hat']))
    return "The library is written 'cocked-hat', with a hyphen.";
  return /^This expression is not callable[^]*cocked-hat/.test(message)
    ? "Names of the library are taken in braces: import { observedAltitude } from 'cocked-hat'"
    : undefined;
}

/** A field left out or misspelt, which TypeScript says after much else. */
function ofField(message: string): string | undefined {
  const missing = /Property '([^']+)' is missing in type/.exec(message)?.[1];
  if (missing !== undefined) return `What is missing: ${missing}.`;
  const [, unknown, near] =
    /'([^']+)' does not exist in type .*Did you mean to write '([^']+)'/.exec(message) ?? [];
  return unknown && `There is no ${unknown} here; ${near} is meant.`;
}

/** The right form for what a complaint is about, in the words of this library, or undefined where TypeScript says enough. */
export function rightForm(
  { message }: Pick<Diagnostic, 'message'>,
  library: LibraryNames = [],
  place: WordPlace = { before: '', after: '' },
): string | undefined {
  const unknown = UNKNOWN_NAME.exec(message)?.[1];
  if (unknown !== undefined) return ofUnknownName(unknown, library, place);
  if (/Promise<.*assignable to/.test(message))
    return 'The value is ready only a moment later: write await before it.';
  if (/^Operator '[^']+' cannot be applied/.test(message) && QUANTITIES.test(message))
    return 'Quantities are added by name, a.plus(b), a.minus(b); as plain numbers they are a.degrees, a.arcminutes.';
  return ofImport(message) ?? ofField(message) ?? wanted(message).map(writtenAs).find(Boolean);
}
