import { EntryError, Instant } from '../../core/units/index.js';

const PLAIN = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d):(\d\d)(?:\.(\d{1,3}))?(?: ?UTC|Z)?$/;

const WITHOUT_SECONDS =
  /^\s*(?:\d{4}-\d{1,2}-\d{1,2}|\d{1,2}\s+[a-z]{3,9}\.?,?\s+\d{4}),?[T\s]\s*\d{2}:\d{2}\s*(?:Z|UTC|UT)?\s*$/i;

/**
 * A date and time in UTC as milliseconds since 1970. The common form is read here at speed, every other text
 * by `Instant.utc`, which explains what is wrong with it. A time without seconds is refused.
 * @throws EntryError
 */
export function readUtcMs(text: string): number {
  const m = PLAIN.exec(text);
  if (m) {
    const [year, month, day] = [Number(m[1]), Number(m[2]), Number(m[3])];
    const [hour, minute, second] = [Number(m[4]), Number(m[5]), Number(m[6])];
    const ms = Date.UTC(year, month - 1, day, hour, minute, second);
    const sound = year >= 1972 && year <= 2199 && month >= 1 && month <= 12 && hour < 24;
    if (sound && minute < 60 && second < 60 && new Date(ms).getUTCDate() === day)
      return ms + Number((m[7] ?? '').padEnd(3, '0'));
  }
  if (WITHOUT_SECONDS.test(text))
    throw new EntryError(
      'The seconds are missing: four seconds are a mile. Write 2027-05-11 09:42:17.',
      text,
    );
  if (/^\s*\d{1,2}:\d{2}(:\d{2})?/.test(text))
    throw new EntryError('The date is missing. Write 2027-05-11 09:42:17.', text);
  return Instant.utc(text).epochMs;
}

const WATCH = /^\s*(.+?)\s*(slow|fast)\s*$/i;
const FORM = 'Write 12 s slow, 1 m 04 s fast or 0 s.';

/** A watch error in seconds, fast positive: `12 s slow`, `1 m 04 s fast`, `0 s`. @throws EntryError without slow or fast. */
export function readWatchError(text: string): number {
  const m = WATCH.exec(text);
  const span = /^(?:(\d+)\s*m(?:in)?\s*)?(?:(\d+(?:\.\d+)?)\s*s(?:ec)?)?$/i.exec(
    (m?.[1] ?? text).trim(),
  );
  if (!span || (span[1] ?? span[2]) === undefined)
    throw new EntryError(`That is not a watch error. ${FORM}`, text);
  const seconds = Number(span[1] ?? 0) * 60 + Number(span[2] ?? 0);
  if (!m && seconds !== 0)
    throw new EntryError(`A watch error must say whether the watch is slow or fast. ${FORM}`, text);
  return m?.[2]?.toLowerCase() === 'slow' && seconds !== 0 ? -seconds : seconds;
}
