import type { SlipKind } from '../../core/fix/index.js';
import { sight, type Sight, type SightFields } from '../../core/sextant/index.js';
import { starNames, type BodyName } from '../../core/sky/index.js';
import { Duration, feet, metres, Position } from '../../core/units/index.js';

/** What a mistake is called: by the word of `slipRules` where that knows it, so that a log and an exercise speak alike. */
type MistakeName = SlipKind | 'row of the dip table';

/** A sight with one thing about it mistaken. */
export interface SightMistake {
  readonly name: MistakeName;
  readonly sentence: string;
  readonly sight: Sight;
}

/**
 * The sight as it would be worked with one thing mistaken: limb, side of the index error, feet for metres, dip left
 * out, the day, the hour or the minute of the almanac, the neighbouring star, the name of the DR.
 */
export function sightMistakes(right: Sight): SightMistake[] {
  const mistaken = (
    name: MistakeName,
    sentence: string,
    change: Partial<SightFields>,
  ): SightMistake => ({
    name,
    sentence,
    sight: sight({ ...right.fields, ...change }),
  });
  return [
    ...limbMistake(right, mistaken),
    ...instrumentMistakes(right, mistaken),
    ...timeMistakes(right, mistaken),
    ...starMistakes(right, mistaken),
    ...drMistakes(right, mistaken),
  ];
}

type Mistaken = (name: MistakeName, sentence: string, change: Partial<SightFields>) => SightMistake;

function limbMistake({ limb }: Sight, mistaken: Mistaken): SightMistake[] {
  if (limb === 'centre') return [];
  const other = limb === 'lower' ? 'upper' : 'lower';
  return [
    mistaken('wrong limb', `This is worked for the ${other} limb; the ${limb} limb was observed.`, {
      limb: other,
    }),
  ];
}

function instrumentMistakes(s: Sight, mistaken: Mistaken): SightMistake[] {
  const found: SightMistake[] = [];
  if (s.indexError && s.indexError.degrees !== 0)
    found.push(
      mistaken(
        'index sign',
        'The index error was taken for the other side of the arc: off the arc is added, on the arc is taken away.',
        { indexError: s.indexError.negated() },
      ),
    );
  const eye = s.eyeHeight?.metres;
  if (s.horizon.kind !== 'natural' || eye === undefined) return found;
  return [
    ...found,
    mistaken('height unit', 'The height of eye was taken in feet, and it is given in metres.', {
      eyeHeight: feet(eye),
    }),
    mistaken(
      'row of the dip table',
      'This is the dip for another height of eye: look at the row of the dip table again.',
      { eyeHeight: metres(eye + 1) },
    ),
    mistaken(
      'row of the dip table',
      'This is the dip for another height of eye: look at the row of the dip table again.',
      { eyeHeight: metres(Math.max(eye - 1, 0.1)) },
    ),
  ];
}

const TIMES = [
  ['date', 86400, 'The almanac was entered for the day before or the day after.'],
  ['hour of time', 3600, 'The almanac was entered for the hour before or the hour after.'],
  ['minute of time', 60, 'The increments were taken for the minute before or the minute after.'],
  [
    'twelve hours',
    43200,
    'Twelve hours are missing or too many: the almanac counts the hours to 24.',
  ],
] as const;

function timeMistakes(s: Sight, mistaken: Mistaken): SightMistake[] {
  return TIMES.flatMap(([name, seconds, sentence]) =>
    [seconds, -seconds].map((by) =>
      mistaken(name, sentence, { time: s.instant.plus(Duration.seconds(by)) }),
    ),
  );
}

function starMistakes(s: Sight, mistaken: Mistaken): SightMistake[] {
  const at = (starNames as readonly BodyName[]).indexOf(s.body);
  if (at < 0) return [];
  return [at - 1, at + 1].flatMap((i) => {
    const body = starNames[i];
    return body
      ? [
          mistaken('another star', `These are the figures of ${body}, the neighbouring row.`, {
            body,
          }),
        ]
      : [];
  });
}

function drMistakes(s: Sight, mistaken: Mistaken): SightMistake[] {
  const { dr } = s;
  if (!dr) return [];
  return [
    mistaken('latitude name', 'The latitude was used with the other name, north for south.', {
      dr: Position.of(dr.latitude.negated(), dr.longitude),
    }),
    mistaken('longitude name', 'The longitude was used with the other name, east for west.', {
      dr: Position.of(dr.latitude, dr.longitude.negated()),
    }),
  ];
}
