import { withDecimalPoint } from '../../core/units/decimal-comma.js';
import { EntryError } from '../../core/units/index.js';
import {
  figureValue,
  formOfLine,
  quantities,
  type ExpectedLine,
  type FigureValue,
  type QuantityName,
  type Question,
} from '../question/index.js';

/** What was read on a line: a figure, nothing, or why it could not be read. */
export type ReadFigure =
  | { readonly figure: FigureValue; readonly written: string }
  | { readonly missing: true }
  | { readonly refused: string; readonly written: string };

const MAX_ENTRY = 200;
const MAX_WORDS = 5000;
/** Dashes that stand for a minus sign before a figure: hyphens, en dash, em dash, the wide forms of a phone's keyboard. */
const DASH_BEFORE = /^\s*[\u2010-\u2015\uFE58\uFE63\uFF0D]/;

/** Reads what a student wrote on a line; text or a value of ours. Never throws for what was written. */
export function readFigure<G>(
  question: Question<G>,
  line: ExpectedLine<G>,
  entry: unknown,
): ReadFigure {
  if (entry === undefined || entry === null) return { missing: true };
  if (typeof entry === 'number')
    return refused(
      String(entry),
      `A bare number says neither unit nor name. Write ${formOfLine(line)}.`,
    );
  const value = figureValue(entry);
  const q = quantities[line.quantity];
  if (value === undefined)
    return refused(
      show(entry),
      `That is not a figure. Write ${formOfLine(line)} between quotation marks, or give a value of the library.`,
    );
  if (typeof value === 'string' && value.trim() === '') return { missing: true };
  const most = line.quantity === 'words' ? MAX_WORDS : MAX_ENTRY;
  if (typeof value === 'string' && value.length > most)
    return refused(
      value.slice(0, most),
      `Here are at most ${most} characters. Write ${formOfLine(line)}.`,
    );
  try {
    const figure =
      typeof value === 'string'
        ? q.read(asTyped(value, line.quantity), {
            ...(question.day === undefined ? {} : { day: question.day }),
            ...(line.choices ? { choices: line.choices } : {}),
          })
        : value;
    q.base(figure);
    return { figure, written: typeof value === 'string' ? value.trim() : q.print(figure) };
  } catch (error) {
    if (error instanceof EntryError || error instanceof RangeError)
      return refused(
        typeof value === 'string' ? value : show(entry),
        withForm(firstLine(error.message), formOfLine(line)),
      );
    throw error;
  }
}

/** A figure as people type it, with a decimal comma or another dash for the minus; words stay as they are. */
const asTyped = (text: string, quantity: QuantityName): string =>
  quantity === 'choice' || quantity === 'words'
    ? text
    : withDecimalPoint(text.replace(DASH_BEFORE, '−'));

const refused = (written: string, why: string) => ({ refused: why, written });
/** What is wrong, with the form of this line in place of the forms that any angle may have. */
const withForm = (message: string, form: string) =>
  message.includes(' Write ') ? message.replace(/ Write .*$/, ` Write ${form}.`) : message;
const firstLine = (message: string) => message.split('\n')[0] ?? message;

function show(entry: unknown): string {
  try {
    return (JSON.stringify(entry) ?? typeof entry).slice(0, MAX_ENTRY);
  } catch {
    return typeof entry;
  }
}
