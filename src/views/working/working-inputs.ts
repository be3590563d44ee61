import { PositionLine } from '../../core/line/index.js';
import { Sight, sightPlace } from '../../core/sextant/index.js';
import type { Instant, Position } from '../../core/units/index.js';
import { Angle, Duration } from '../../core/units/index.js';
import { subjectOf, Working } from '../../core/working/index.js';
import { encode, type Encoded } from '../inputs/encode.js';
import { ephemerisUsedBy, type EphemerisPieces } from '../inputs/ephemeris-pieces.js';
import { apparentPlace } from '../../core/sky/index.js';

/** From what a working of a sight is worked out again. */
export interface WorkingInputs {
  readonly procedure: string;
  readonly fields: Encoded;
  /** Where an altitude is computed for, in a reduction. */
  readonly position?: Encoded;
  readonly ephemeris?: EphemerisPieces;
}

interface Source {
  readonly procedure: string;
  readonly sight: Sight;
  readonly position?: Position;
}

function sourceOf(working: Working<unknown>): Source | undefined {
  const { value } = working;
  if (value instanceof PositionLine) {
    const { sight } = value.observation;
    return sight && { procedure: 'reduce', sight, position: value.position };
  }
  const subject = subjectOf(working);
  const sight = subject?.given[0];
  return subject && sight instanceof Sight ? { procedure: subject.procedure, sight } : undefined;
}

/** How far a reader may move the watch, s; places are held for as long before and after the sight. */
export const WATCH_REACH_S = 3600;

/** Reads the places that the view may come to need, so that their bytes are noted. */
export function readPlaces(sight: Sight): void {
  sightPlace(sight);
  if (sight.place) return;
  for (const seconds of [-WATCH_REACH_S, 0, WATCH_REACH_S]) {
    const instant: Instant = sight.instant.plus(Duration.seconds(seconds));
    apparentPlace(sight.body, instant);
    if (sight.body !== 'Sun' && sight.body !== 'Moon') apparentPlace('Sun', instant);
  }
}

/** An index check given as a working goes on as its value, its doubt in the error budget. */
function plainFields(sight: Sight): Record<string, unknown> {
  const fields: Record<string, unknown> = { ...sight.fields };
  if (fields['indexError'] instanceof Working) {
    fields['indexError'] = sight.indexError ?? Angle.zero;
    fields['errorBudget'] = { index: sight.indexSigma, ...sight.fields.errorBudget };
  }
  return fields;
}

/** What a sight is made from, as plain data. */
export const sightInputs = (sight: Sight): Encoded => encode(plainFields(sight));

/** The inputs of a working that came from a sight; undefined for any other working. */
export function workingInputs(working: Working<unknown>): WorkingInputs | undefined {
  const source = sourceOf(working);
  if (!source) return undefined;
  const ephemeris = ephemerisUsedBy(() => readPlaces(source.sight));
  return {
    procedure: source.procedure,
    fields: sightInputs(source.sight),
    ...(source.position ? { position: encode(source.position) } : {}),
    ...(ephemeris ? { ephemeris } : {}),
  };
}
