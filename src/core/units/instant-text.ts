import { EntryError } from './errors.js';
import { endsWithLeapSecond, EPOCH_MJD, timeTables } from './time-scales.js';

/** A civil date and time in UTC, checked. `decimals`: how many decimals of the second were written. */
export interface UtcParts {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
  readonly decimals: number;
}

const FORM = 'Write 2027-05-11 09:42:17 UTC.';
const PATTERN =
  /^\s*(\d{4})-(\d{1,2})-(\d{1,2})(?:[T\s]|,\s)\s*(\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,9}))?)?\s*(Z|UTC|UT)?\s*$/i;
const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Reads a UTC date and time strictly: every figure is checked, an offset or a date in another order is refused. */
export function readUtc(text: string): UtcParts {
  if (typeof text !== 'string')
    throw new EntryError(`A time is read from text. ${FORM}`, String(text));
  const asFigures = monthInFigures(text);
  const m = PATTERN.exec(asFigures);
  if (!m) return explain(text);
  const [year, month, day, hour, minute, second] = [1, 2, 3, 4, 5, 6].map((i) =>
    Number(m[i] ?? 0),
  ) as [number, number, number, number, number, number];
  const fraction = m[7] ?? '';
  const parts = {
    year,
    month,
    day,
    hour,
    minute,
    second: second + Number(`0.${fraction || '0'}`),
    decimals: fraction.length,
  };
  checkParts(parts, text, asFigures === text);
  return parts;
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/** `13 May 2027 18:14:48` with the month as a figure and the year first; any other text as it is. */
function monthInFigures(text: string): string {
  const m = /^\s*(\d{1,2})\s+([a-z]{3,9})\.?,?\s+(\d{4})\b,?(.*)$/is.exec(text);
  const month = MONTHS.indexOf((m?.[2] ?? '').slice(0, 3).toLowerCase());
  if (!m || month < 0) return text;
  return `${m[3]}-${two(month + 1)}-${two(Number(m[1]))}${m[4]}`;
}

/** @throws EntryError naming the impossible figure. */
export function checkParts(parts: UtcParts, text: string, yearIsFirst = true): void {
  const { year, month, day, hour, minute, second } = parts;
  const at = (needle: number, from: number) =>
    text.indexOf(String(Math.trunc(needle)).padStart(2, '0'), from);
  const refuse = (problem: string, where?: number): never => {
    const at = yearIsFirst && where !== -1 ? where : undefined;
    throw new EntryError(`${problem} ${FORM}`, text, at);
  };
  if (!Number.isInteger(year) || year < timeTables.firstYear || year > timeTables.lastYear)
    refuse(
      `The years ${timeTables.firstYear} to ${timeTables.lastYear} are covered, not ${year}.`,
      0,
    );
  if (!(Number.isInteger(month) && month >= 1 && month <= 12))
    refuse(`There is no month ${month}.`, at(month, 5));
  const last = daysIn(year, month);
  if (!(Number.isInteger(day) && day >= 1 && day <= last))
    refuse(
      `There is no ${year}-${two(month)}-${two(day)}: that month has ${last} days.`,
      at(day, 8),
    );
  if (!(Number.isInteger(hour) && hour >= 0 && hour <= 23))
    refuse(`Hours run from 00 to 23, not ${hour}.`, at(hour, 11));
  if (!(Number.isInteger(minute) && minute >= 0 && minute <= 59))
    refuse(`Minutes run from 00 to 59, not ${minute}.`, at(minute, 14));
  if (!(second >= 0 && second < 61))
    refuse(`Seconds run from 00 to 59, not ${second}.`, at(second, 17));
  if (
    second >= 60 &&
    !(hour === 23 && minute === 59 && endsWithLeapSecond(mjdOf(year, month, day)))
  )
    refuse(
      'There was no second 60 then: a leap second is 23:59:60 on a day the IERS announced.',
      at(second, 17),
    );
}

/** Modified Julian day of a Gregorian date. */
export function mjdOf(year: number, month: number, day: number): number {
  return Date.UTC(year, month - 1, day) / 86_400_000 + EPOCH_MJD;
}

function daysIn(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return month === 2 && leap ? 29 : (DAYS[month - 1] ?? 0);
}

const two = (n: number) => String(n).padStart(2, '0');

function explain(text: string): never {
  const refuse = (problem: string, at?: number): never => {
    throw new EntryError(`${problem} ${FORM}`, text, at);
  };
  if (text.trim() === '') refuse('No time is written.', 0);
  const offset = /[+\-−]\d{1,2}(?::?\d{2})?\s*$/.exec(text);
  if (offset && /\d{2}:\d{2}/.test(text.slice(0, offset.index)))
    refuse(
      'A zone offset is not used here; give UTC, or a zone time with zoneTime().',
      offset.index,
    );
  if (/^\s*\d{1,2}[/.-]\d{1,2}[/.-]\d{2,4}/.test(text))
    refuse('The order of day and month is not sure; begin with the year.', 0);
  if (/^\s*\d{4}[/.]/.test(text)) refuse('Separate the date with hyphens.', text.search(/[/.]/));
  if (/^\s*\d{4}-\d{2}-\d{2}\s*(?:Z|UTC|UT)?\s*$/i.test(text))
    refuse('The time of day is missing.', text.trimEnd().length);
  if (/\b(?:am|pm)\b/i.test(text)) refuse('Use the 24-hour clock.', text.search(/\b(?:am|pm)\b/i));
  if (/\b(?:gmt|bst|cet|est|local|lt|zt)\b/i.test(text))
    refuse('Only UTC is read here.', text.search(/\b(?:gmt|bst|cet|est|local|lt|zt)\b/i));
  if (/^\s*\d{1,2}[:.h]\d{2}/.test(text)) refuse('The date is missing.', 0);
  const afterDate = /^\s*\d{4}-\d{1,2}-\d{1,2}(?:[T\s]|,\s)\s*(?=\d)/.exec(text);
  if (afterDate)
    refuse('The time of day has two figures each, and colons between them.', afterDate[0].length);
  return refuse('That is not a date and time in UTC.', Math.max(0, text.search(/\S/)));
}
