/** A blunder with a signature: something a person did, that moves a sight by an amount one can work out. */
export type SlipKind =
  | 'wrong limb'
  | 'index sign'
  | 'whole degree'
  | 'ten minutes'
  | 'thirty minutes'
  | 'minute of time'
  | 'hour of time'
  | 'twelve hours'
  | 'zone sign'
  | 'date'
  | 'dip forgotten'
  | 'height unit'
  | 'not halved'
  | 'refraction forgotten'
  | 'parallax forgotten'
  | 'another star'
  | 'body misnamed'
  | 'latitude name'
  | 'longitude name';

/** One usual blunder: what happened, how common it is, where it is made. */
export interface SlipRule {
  readonly kind: SlipKind;
  /** What happened, in a sentence. */
  readonly title: string;
  /** How common it is beside the others (common practice, no source); shares of one are worked out where they are used. */
  readonly frequency: number;
  /** Whether it is made in taking the sight down or in working it. */
  readonly made: 'entry' | 'working';
}

const rule = (
  kind: SlipKind,
  title: string,
  frequency: number,
  made: 'entry' | 'working' = 'entry',
): SlipRule => Object.freeze({ kind, title, frequency, made });

/** Every slip known here. The frequencies only break ties: their effects differ by far more than a sight's scatter. */
export const slipRules: readonly SlipRule[] = Object.freeze([
  rule('wrong limb', 'The other limb was observed than the one noted.', 2),
  rule('index sign', 'The index error was taken with the wrong sign.', 2),
  rule('whole degree', 'The arc was read a whole degree off (the drum a turn off).', 3),
  rule('ten minutes', 'The reading is ten minutes off.', 2),
  rule('thirty minutes', 'The reading is thirty minutes off.', 1),
  rule('minute of time', 'The time is a whole minute off.', 3),
  rule('hour of time', 'The time is a whole hour off.', 2),
  rule('twelve hours', 'A twelve-hour clock was taken for the other half of the day.', 1),
  rule('zone sign', 'The zone was applied with the wrong sign.', 1),
  rule('date', 'The date is a day off.', 1),
  rule('dip forgotten', 'Dip was left out.', 2, 'working'),
  rule('height unit', 'The height of eye is in the other unit (feet, metres).', 1),
  rule('not halved', 'The angle to an artificial horizon was not halved.', 1),
  rule('refraction forgotten', 'Refraction was left out.', 1, 'working'),
  rule('parallax forgotten', 'The Moon’s parallax was left out.', 1, 'working'),
  rule('another star', 'A neighbouring body was taken for the one noted.', 2),
  rule('body misnamed', 'The name of another body, far from the right one, was noted.', 1),
  rule('latitude name', 'The latitude has the wrong name (north for south).', 1),
  rule('longitude name', 'The longitude has the wrong name (east for west).', 1),
]);

/** The rule of a kind. */
export const slipRule = (kind: SlipKind): SlipRule =>
  slipRules.find((r) => r.kind === kind) as SlipRule;
