import { assessmentStandards, type StandardName } from './standards.js';

/**
 * How the student works. `formula`: by calculator, printed to the tenth. `tenths`: each line rounded to 0.1′ before
 * the next. `tables`: almanac and altitude tables. Without a method the assessment standard holds for a result.
 */
export type WorkingMethod = 'formula' | 'tenths' | 'tables';

/** How far a figure may be from the expected one, in its unit, and why. */
export interface Tolerance {
  /** How far a figure may be off. */
  readonly size: number;
  /** The unit of `size`. */
  readonly unit: '′' | 'nm' | '°' | 's';
  /** Why so much. */
  readonly reason: string;
  readonly source: string;
}

/** A tolerance of one's own as it is written: `0.5 nm`, `0.3′`, `1°`, `2 s`. */
export type ToleranceText = `${number}${'′' | "'" | '°' | ' nm' | ' s'}`;

const WRITTEN = /^\s*(\d+(?:\.\d+)?)\s*(′|'|°|nm|s)\s*$/;

/** Reads a tolerance of one's own. @throws RangeError with the right form */
export function readTolerance(text: string): Tolerance {
  const [, size, unit] = WRITTEN.exec(text) ?? [];
  if (size === undefined)
    throw new RangeError(
      `a tolerance is a size with its unit, as '0.3′', '0.5 nm', '1°' or '2 s', not '${text}'`,
    );
  return Object.freeze({
    size: Number(size),
    unit: (unit === "'" ? '′' : unit) as Tolerance['unit'],
    reason: 'set for this line',
    source: 'the exercise itself',
  });
}

/** Room beyond the tolerance for a figure on the very edge of rounding, in the same unit. */
export const ROUNDING_EDGE = 0.005;

/** What kind of line a tolerance is for. */
export type ToleranceFor =
  'correction' | 'altitude' | 'hour angle' | 'declination' | 'bearing' | 'time';

const arithmetic = 'arithmetic of rounding, no source';
const ALMANAC = 'Nautical Almanac, Explanation (from memory)';

const arc = (size: number, reason: string, source: string): Tolerance =>
  Object.freeze({ size, unit: '′', reason, source });

const TABLES: Readonly<Record<ToleranceFor, Tolerance>> = {
  correction: arc(
    0.1,
    'the dip table and the formula differ by up to 0.07′, the star refraction table and the formula by up to 0.09′',
    'altitude tables of the almanac against its formulas',
  ),
  altitude: arc(
    0.2,
    'an altitude from rounded tables can differ by 0.16′ from the chain of formulas; tabulated Hc is good to about 0.2′',
    'worked sights in print against the formulas; NGA Pub. No. 229',
  ),
  'hour angle': arc(0.3, 'the largest error of a tabulated GHA: Sun 0.25′, Moon 0.3′', ALMANAC),
  declination: arc(0.2, 'the largest error of a tabulated declination', ALMANAC),
  bearing: Object.freeze({
    size: 0.5,
    unit: '°',
    reason: 'azimuths are tabulated and plotted to the degree',
    source: arithmetic,
  }),
  time: Object.freeze({
    size: 2,
    unit: 's',
    reason: 'the time of a sight is held to 2 s',
    source: assessmentStandards.sightTime.source,
  }),
};

/** @param size one half of the last place for `formula`, a whole tenth where the line before was rounded too */
function byRounding(what: ToleranceFor, size: number, reason: string): Tolerance {
  if (what === 'bearing' || what === 'time') return TABLES[what];
  return arc(size, reason, arithmetic);
}

/** The tolerance that a method of working brings to a line of that kind. */
export function methodTolerance(method: WorkingMethod, what: ToleranceFor): Tolerance {
  if (method === 'tables') return TABLES[what];
  return method === 'formula'
    ? byRounding(what, 0.05, 'a figure rounded once to 0.1′ is at most 0.05′ off')
    : byRounding(what, 0.1, 'two figures each rounded to 0.1′ differ by at most 0.1′');
}

/** The tolerance of a published assessment standard. */
export function standardTolerance(name: StandardName): Tolerance {
  const { size, unit, source } = assessmentStandards[name];
  return Object.freeze({ size, unit, reason: 'the published standard of assessment', source });
}
