/** The usual cautions, in sentences that a page can print. */
export const EYES =
  'Never look at the Sun through a telescope or an open sight without the right shades: it blinds at once.';
export const NEVER_ALONE = 'Never rely on one means of fixing the position.';
export const WORK_FROM_TABLES =
  'For navigation, official publications, local rules and licensed practice come first; these figures are for exercise.';
