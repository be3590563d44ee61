import { Angle } from '../units/angle.js';
import { angle } from '../units/angle-text.js';
import { bearing } from '../units/bearing-text.js';
import { EntryError } from '../units/errors.js';
import { Position } from '../units/position.js';
import { pressure, speed, temperature } from '../units/quantity-text.js';
import type { AlmanacEntry } from '../sky/almanac-entry.js';
import { Pressure, Speed, Temperature } from '../units/scalar.js';
import { body } from '../sky/body-text.js';
import { Working } from '../working/working.js';
import { certificate } from './certificate.js';
import { sextantCauses, type SextantCause } from './error-budget.js';
import { readHorizon } from './horizon.js';
import { indexError } from './index-error-text.js';
import { readLimb } from './limb.js';
import { readReadings } from './readings.js';
import { Sight, type SightData } from './sight.js';
import type { SightFields } from './sight-fields.js';
import { revive } from './revive.js';
import { pressureInRange, speedInRange, temperatureInRange } from './sight-limits.js';
import { watchCheck, type WatchCheck } from './watch.js';
import { instanceOf, shown } from './shown.js';

const FIELD_NAMES: ReadonlySet<string> = new Set<keyof SightFields>([
  'body',
  'limb',
  'reading',
  'time',
  'horizon',
  'waterlineDistance',
  'eyeHeight',
  'indexError',
  'indexCheckKey',
  'instrumentTable',
  'temperature',
  'pressure',
  'refractionModel',
  'watch',
  'dr',
  'course',
  'speed',
  'observer',
  'instrument',
  'session',
  'sigma',
  'errorBudget',
  'place',
  'remarks',
]);
const REFRACTION_MODELS = ['formula', 'integral', 'formula above 10°'] as const;

/**
 * Takes down a sight, from what a navigator writes or from a sight's JSON. Texts are kept as typed (`.fields`, `.text`); what is not given and matters is listed in
 * `.assumptions` and shows in the working.
 * @throws EntryError naming the field's mistake and the right form; OutOfRangeError for a number that cannot be.
 * @example
 * ```ts
 * import { position, sight } from 'cocked-hat';
 *
 * const forenoon = sight({
 *   body: 'Sun', limb: 'lower', reading: '39°13.7′', time: '2027-05-11 09:42:17 UTC',
 *   eyeHeight: '2.6 m', indexError: '1.4′ off the arc', dr: position('19°31′ S', '001°12′ W'),
 * });
 * forenoon.toString()
 * ```
 * ```text
 * 'Sun, lower limb, 39°13.7′ at 2027-05-11 09:42:17 UTC'
 * ```
 */
export function sight(given: SightFields): Sight {
  if (typeof given !== 'object' || given === null)
    throw new EntryError("A sight is taken down as sight({ body: 'Sun', … }).", shown(given));
  const fields = revive(given) as SightFields;
  refuseUnknownFields(fields);
  const assumptions: string[] = [];
  const doubts: string[] = [];
  const name = body(shown(fields.body));
  const watch = fields.watch && watchCheck(fields.watch);
  const { readings, instant } = readReadings(fields, watch, assumptions, doubts);
  const day = instant.toIso().slice(0, 10);
  const data: SightData = {
    body: name,
    limb: readLimb(fields.limb, name, assumptions),
    readings,
    instant,
    ...readHorizon(fields, assumptions, doubts),
    ...readIndex(fields, assumptions, doubts),
    indexCheckKey: fields.indexCheckKey ?? day,
    session: fields.session ?? day,
    ...readAir(fields, assumptions),
    ...readMotion(fields),
    ...optional('instrumentTable', fields.instrumentTable && certificate(fields.instrumentTable)),
    ...optional<'watch', WatchCheck>('watch', watch),
    ...optional('observer', fields.observer),
    ...optional('instrument', fields.instrument),
    ...optional('place', fields.place && readPlace(fields.place)),
    ...optional('remarks', fields.remarks),
    ...readUncertainty(fields),
    assumptions: Object.freeze(assumptions),
    doubts: Object.freeze(doubts),
    fields: Object.freeze({ ...given }),
  };
  return new Sight(data);
}

/** The sight again with some fields changed, the others as they were typed. @throws as `sight` */
export const sightWith = (from: Sight, changes: Partial<SightFields>): Sight =>
  sight({ ...from.fields, ...changes });

/** `{ [key]: value }`, or nothing where there is no value. */
function optional<K extends string, V>(key: K, value: V | undefined): { [P in K]?: V } {
  return value === undefined ? {} : ({ [key]: value } as { [P in K]?: V });
}

/** A field that is text to be read, or the value itself. */
function quantity<T>(
  given: unknown,
  read: (text: string) => T,
  kind: { readonly prototype: T },
  form: string,
): T | undefined {
  if (given === undefined) return undefined;
  return typeof given === 'string' ? read(given) : instanceOf(kind, given, `Write it as ${form}.`);
}

function refuseUnknownFields(fields: SightFields): void {
  for (const key of Object.keys(fields))
    if (!FIELD_NAMES.has(key))
      throw new EntryError(
        `A sight has no field '${key}'. It has ${[...FIELD_NAMES].join(', ')}.`,
        key,
      );
}

function readIndex(
  fields: SightFields,
  assumptions: string[],
  doubts: string[],
): Pick<SightData, 'indexError' | 'indexSigma'> {
  const given = fields.indexError;
  if (given === undefined) {
    assumptions.push('no index error was given: none is applied');
    return {};
  }
  if (given instanceof Working) {
    if (!given.steps.at(-1)?.rule.startsWith('index-error'))
      throw new EntryError(
        "That working is not an index check. Write '1.4′ off the arc' or give a check's result.",
        given.title,
      );
    doubts.push(...given.flags);
    return { indexError: given.value, indexSigma: given.uncertainty.sigma };
  }
  const error = typeof given === 'string' ? indexError(given) : given;
  if (!(error instanceof Angle) || Math.abs(error.arcminutes) > 60)
    throw new EntryError('An index error is at most 1°, on or off the arc.', shown(given));
  if (Math.abs(error.arcminutes) > 3)
    doubts.push(
      `The index error of ${Math.abs(error.arcminutes).toFixed(1)}′ is large: over 3′ it is usual to adjust the mirrors first.`,
    );
  return { indexError: error };
}

function readAir(
  fields: SightFields,
  assumptions: string[],
): Pick<SightData, 'temperature' | 'pressure' | 'refractionModel'> {
  const air = quantity(fields.temperature, temperature, Temperature, '21 °C');
  const barometer = quantity(fields.pressure, pressure, Pressure, '1010 hPa');
  if (!air) assumptions.push('the air is taken at 10 °C, as in the almanac’s tables');
  if (!barometer)
    assumptions.push('the barometer is taken at 1010 hPa, as in the almanac’s tables');
  const model = fields.refractionModel ?? 'formula above 10°';
  if (!REFRACTION_MODELS.includes(model))
    throw new EntryError(
      `There is no refraction model '${shown(model)}'. Write ${REFRACTION_MODELS.map((m) => `'${m}'`).join(', ')}.`,
      shown(model),
    );
  return {
    ...optional('temperature', air && temperatureInRange(air)),
    ...optional('pressure', barometer && pressureInRange(barometer)),
    refractionModel: model,
  };
}

function readMotion(fields: SightFields): Pick<SightData, 'dr' | 'course' | 'speed'> {
  if (fields.dr !== undefined && !(fields.dr instanceof Position))
    throw new EntryError(
      "A DR is a position: position('19°31′ S', '001°12′ W').",
      shown(fields.dr),
    );
  const course = quantity(fields.course, bearing, Angle, '312°');
  const knots = quantity(fields.speed, speed, Speed, '5.2 kn');
  return {
    ...optional('dr', fields.dr),
    ...optional('course', course),
    ...optional('speed', knots && speedInRange(knots)),
  };
}

function readPlace(place: AlmanacEntry): AlmanacEntry {
  const { gha, declination, semidiameter, horizontalParallax } = place;
  if ([gha, declination, semidiameter, horizontalParallax].every((a) => a instanceof Angle))
    return place;
  throw new EntryError(
    "Figures from an almanac are given as place: almanacEntry({ gha: '213°45.2′', declination: 'N 18°12.4′', source: '…' }).",
    shown(place),
  );
}

function readUncertainty(fields: SightFields): Pick<SightData, 'sigma' | 'errorBudget'> {
  const budget: Partial<Record<SextantCause, Angle>> = {};
  for (const [cause, value] of Object.entries(fields.errorBudget ?? {})) {
    if (!sextantCauses.includes(cause as SextantCause))
      throw new EntryError(
        `The error budget has no cause '${cause}'. It has ${sextantCauses.join(', ')}.`,
        cause,
      );
    budget[cause as SextantCause] = sigmaOf(value, `the ${cause} error`);
  }
  return {
    ...optional('sigma', fields.sigma === undefined ? undefined : sigmaOf(fields.sigma, 'sigma')),
    errorBudget: Object.freeze(budget),
  };
}

function sigmaOf(value: string | Angle, what: string): Angle {
  const sigma = typeof value === 'string' ? angle(value) : value;
  if (!(sigma instanceof Angle) || sigma.degrees < 0 || sigma.degrees > 5)
    throw new EntryError(
      `One standard deviation of ${what} is between 0′ and 5°. Write 0.8′.`,
      shown(value),
    );
  return sigma;
}
