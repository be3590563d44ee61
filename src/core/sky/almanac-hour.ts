import { Angle } from '../units/angle.js';
import { angle } from '../units/angle-text.js';
import { formatAngle, formatCorrection, formatLatitude } from '../units/angle-format.js';
import { EntryError } from '../units/errors.js';
import { Instant } from '../units/instant.js';
import { valueOrText } from '../units/value-or-text.js';
import { Working, type Step, type StepInput } from '../working/working.js';
import { almanacEntry, type AlmanacEntry } from './almanac-entry.js';
import { isSolarSystem, type BodyName } from './body-names.js';

/** Hourly figures copied from the daily page of a printed almanac. */
export interface AlmanacHourFields {
  readonly body: BodyName;
  /** The whole hour (UT) the figures stand at, `2027-05-11 09:00 UTC`; the time of the place lies within the hour after. */
  readonly hour: string | Instant;
  /** GHA at the hour; for a star that of Aries. */
  readonly gha: string | Angle;
  /** SHA of a star; needed for a star, refused for others. */
  readonly sha?: string | Angle;
  /** Hourly excess over the adopted motion, signed where the almanac prints a sign: `12.3′`, `−0.4′`. */
  readonly v?: string | Angle;
  /** Declination at the hour. */
  readonly declination: string | Angle;
  /** Hourly change with the way it goes: `0.7′ N`, or signed, north +. */
  readonly d?: string | Angle;
  readonly sd?: string | Angle;
  readonly hp?: string | Angle;
  /** Title, year, page. */
  readonly source: string;
}

/** Adopted motion in GHA, degrees an hour (Nautical Almanac, Explanation; from memory). */
const MOTION = { sunAndPlanets: 15, moon: 14 + 19 / 60, aries: 15 + 2.46 / 60 } as const;

/**
 * Brings hourly figures to a time as the almanac's increments and corrections do: GHA + increment + v part, declination + d
 * part; for a star GHA of Aries + increment + SHA. The time is taken in UT1, as the almanac's hours are.
 * @returns a working whose value is the entry to give a sight as its place
 * @throws EntryError when a figure is missing or impossible, or the time is not within the hour
 */
export function almanacHour(fields: AlmanacHourFields, instant: Instant): Working<AlmanacEntry> {
  const star = !isSolarSystem(fields.body);
  if (star && fields.sha === undefined)
    throw new EntryError(
      `${fields.body} needs its SHA: add sha: '80°33.1′', and gha is that of Aries.`,
      String(fields.gha),
    );
  if (!star && fields.sha !== undefined)
    throw new EntryError(
      `${fields.body} stands on the daily page with its own GHA; leave sha out.`,
      String(fields.sha),
    );
  const part = hourPart(fields.hour, instant);
  // Checked as an entry first, so that the refusal is the same wherever the figures come from.
  const at = almanacEntry({
    gha: fields.gha,
    declination: fields.declination,
    ...(fields.sd === undefined ? {} : { sd: fields.sd }),
    ...(fields.hp === undefined ? {} : { hp: fields.hp }),
    source: fields.source,
  });
  const motion = star ? MOTION.aries : fields.body === 'Moon' ? MOTION.moon : MOTION.sunAndPlanets;
  const steps: Step[] = [
    {
      rule: 'gha-at-the-hour',
      title: star ? 'GHA of Aries at the hour' : 'GHA at the hour',
      kind: 'entry',
      formula: { latex: '\\mathrm{GHA}_0', plain: 'GHA at the hour' },
      figures: circle(at.gha),
      inputs: [given('GHA', 'GHA', at.gha, circle(at.gha))],
      result: at.gha,
      errors: [],
      source: fields.source,
    },
  ];
  let gha = at.gha;
  const add = (rule: string, title: string, plain: string, amount: Angle, inputs: StepInput[]) => {
    gha = gha.plus(amount).normalized();
    steps.push({
      rule,
      title,
      kind: 'correction',
      formula: { latex: `\\text{${plain}}`, plain },
      figures:
        rule === 'increment' || rule === 'sha'
          ? circle(amount)
          : formatCorrection(amount.arcminutes),
      inputs,
      correction: amount,
      result: gha,
      errors: [],
      source: fields.source,
    });
  };
  add('increment', 'Increment', 'adopted motion × part of the hour', Angle.degrees(motion * part), [
    { name: 'part of the hour', value: part, text: part.toFixed(4), origin: 'computed' },
  ]);
  const v = optional(fields.v);
  if (v)
    add('v', 'v correction', 'v × part of the hour', v.times(part), [
      given('v', 'v', v, formatCorrection(v.arcminutes)),
    ]);
  const sha = star ? shaOf(fields.sha) : undefined;
  if (sha) add('sha', 'SHA', 'GHA = GHA Aries + SHA', sha, [given('SHA', 'SHA', sha, circle(sha))]);
  const d = optional(fields.d) ?? Angle.zero;
  const declination = at.declination.plus(d.times(part));
  const entry = almanacEntry({
    gha,
    declination,
    sd: at.semidiameter,
    hp: at.horizontalParallax,
    source: fields.source,
  });
  return new Working<AlmanacEntry>(`Almanac place: ${fields.body}`, [
    ...steps,
    {
      rule: 'declination',
      title: 'Declination',
      kind: 'result',
      formula: {
        latex: '\\delta = \\delta_0 + d\\,t',
        plain: 'declination at the hour + d × part of the hour',
      },
      figures: `${formatLatitude(at.declination.degrees)} ${formatCorrection(d.arcminutes * part)}`,
      inputs: [
        given('declination', 'δ₀', at.declination, formatLatitude(at.declination.degrees)),
        given('d', 'd', d, formatCorrection(d.arcminutes)),
      ],
      result: entry,
      errors: [],
      source: fields.source,
    },
  ]);
}

const circle = (value: Angle) => formatAngle(value.degrees, 1, 3);
const given = (name: string, symbol: string, value: Angle, text: string): StepInput => ({
  name,
  symbol,
  value,
  text: value.text ?? text,
  origin: 'table',
});
const optional = (value: string | Angle | undefined): Angle | undefined =>
  value === undefined ? undefined : valueOrText(Angle, value, angle);

function shaOf(value: string | Angle | undefined): Angle | undefined {
  const sha = optional(value);
  if (sha && (sha.degrees < 0 || sha.degrees >= 360))
    throw new EntryError(
      'An SHA runs from 0° to 359°59.9′. Write 80°33.1′.',
      sha.text ?? String(sha),
    );
  return sha;
}

/** Part of the hour gone by in UT1, 0 to 1. */
function hourPart(hour: string | Instant, instant: Instant): number {
  const start = valueOrText(Instant, hour, (text) => Instant.utc(text));
  if (start.epochMs % 3_600_000 !== 0)
    throw new EntryError(
      'The daily page stands at whole hours. Write hour: 2027-05-11 09:00 UTC.',
      start.text ?? String(start),
    );
  const seconds = (instant.epochMs - start.epochMs) / 1000 + instant.dut1Seconds;
  if (!(seconds > -1 && seconds < 3601))
    throw new EntryError(
      `${String(instant)} is not within the hour after ${String(start)}.`,
      start.text ?? String(start),
    );
  return seconds / 3600;
}
