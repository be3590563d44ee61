import { EntryError } from '../units/errors.js';
import { Instant } from '../units/instant.js';
import { duration } from '../units/quantity-text.js';
import { Duration } from '../units/scalar.js';
import { instanceOf, shown } from './shown.js';

/** What is known of the watch that the times of a sight were read from. */
export interface WatchCheck {
  /** Watch minus UTC when it was compared: fast positive. */
  readonly error: Duration;
  /** Gain in a day, gaining positive. */
  readonly dailyRate: Duration;
  /** When it was compared; wanted where there is a rate. */
  readonly checked?: Instant;
  /** One standard deviation of the error at the sight. */
  readonly sigma: Duration;
  /** Sights timed by one watch from one comparison share its error. */
  readonly key: string;
}
/** What is written down of a watch: its error, rate and when it was compared. */
export interface WatchFields {
  /** `12 s fast`, `3.5 s slow`, `correct`. */
  readonly error: string | Duration;
  /** In a day: `1.5 s gaining`, `0.4 s losing`. */
  readonly rate?: string | Duration;
  /** `2027-05-10 08:00:00 UTC`. */
  readonly checked?: string | Instant;
  /** `0.5 s`. */
  readonly sigma?: string | Duration;
  readonly key?: string;
}

const ERROR_FORM = "Write '12 s fast', '3.5 s slow' or 'correct'.";
const RATE_FORM = "Write '1.5 s gaining' or '0.4 s losing', in a day.";
/** A time noted to the second, by one who counts from the watch: common practice, no source. */
const DEFAULT_SIGMA_S = 0.5;

function signed(text: string, plus: string, minus: string, zero: RegExp, form: string): Duration {
  if (zero.test(text.trim())) return Duration.seconds(0);
  const match = new RegExp(`^(.*?)\\s*(${plus}|${minus})(?:\\s+(?:a|per)\\s+day)?\\s*$`, 'i').exec(
    text,
  );
  if (!match) throw new EntryError(`It must say ${plus} or ${minus}. ${form}`, text);
  const figure = (match[1] ?? '').replace(/\s*(?:\/|per|a)\s*day\s*$/i, '');
  const size = duration(figure);
  if (size.seconds < 0)
    throw new EntryError(`A sign and '${match[2]}' say it twice. ${form}`, text, 0);
  return match[2]?.toLowerCase() === plus ? size : size.negated();
}

/**
 * Reads a watch's comparison. @throws EntryError on an error that does not say fast or slow, on a rate without the
 * time of the comparison.
 */
export function watchCheck(fields: WatchFields): WatchCheck {
  const error =
    typeof fields.error === 'string'
      ? signed(fields.error, 'fast', 'slow', /^(?:correct|nil|none|0(?:\.0*)? ?s?)$/i, ERROR_FORM)
      : fields.error;
  instanceOf(Duration, error, `A watch has an error. ${ERROR_FORM}`);
  const dailyRate =
    typeof fields.rate === 'string'
      ? signed(fields.rate, 'gaining', 'losing', /^(?:none|nil|0(?:\.0*)? ?s?)$/i, RATE_FORM)
      : (fields.rate ?? Duration.seconds(0));
  instanceOf(Duration, dailyRate, `A rate is a time in a day. ${RATE_FORM}`);
  const checked = typeof fields.checked === 'string' ? Instant.utc(fields.checked) : fields.checked;
  if (checked !== undefined)
    instanceOf(Instant, checked, "A comparison has a time: '2027-05-10 08:00:00 UTC'.");
  if (dailyRate.seconds !== 0 && !checked)
    throw new EntryError(
      "A rate needs the time of the comparison: checked: '2027-05-10 08:00:00 UTC'.",
      shown(fields.rate),
    );
  const sigma =
    typeof fields.sigma === 'string'
      ? duration(fields.sigma)
      : (fields.sigma ?? Duration.seconds(DEFAULT_SIGMA_S));
  instanceOf(Duration, sigma, "The watch's sigma is a time. Write '0.5 s'.");
  const key = fields.key ?? `watch${checked ? ` ${checked.toString()}` : ''}`;
  return Object.freeze({ error, dailyRate, sigma, key, ...(checked ? { checked } : {}) });
}

/**
 * Watch minus UTC at a moment, fast positive: the error found, carried on by the daily rate from when it was found.
 */
export function watchErrorAt(watch: WatchCheck, at: Instant): Duration {
  const days = watch.checked ? at.minus(watch.checked).days : 0;
  return watch.error.plus(Duration.seconds(watch.dailyRate.seconds * days));
}
