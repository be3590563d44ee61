/** What the engine names first when one blunder is made in a sight. */
import { circumstancesLine, table } from './write.mjs';

export function slips({ slips: part }) {
  const all = part.figures.find(({ name }) => name.startsWith('all slips'));
  const ofReadings = part.figures.filter(({ about }) => about.readings !== undefined);
  const kinds = part.figures.filter((figure) => figure !== all && !ofReadings.includes(figure));
  const clean = kinds.find(({ about }) => about.kind === 'clean');
  const rows = kinds.map(({ value, about }) => [
    about.kind,
    about.kind === 'clean' ? '–' : `${about.identifiable} of ${about.trials}`,
    `${value.toFixed(1)} %`,
    about.others,
  ]);
  const { right, told, trials } = all.about;
  return [
    `Single sights at a known place, scatter 0.7′ (1σ), ${trials} of each slip, ${clean.about.trials} clean.`,
    table(['Slip made', 'Can be told', 'Named first', 'Otherwise named first'], rows),
    `All slips that can be told: ${all.value.toFixed(1)} % named first (${right} of ${told}); clean sights called clean: ${clean.value.toFixed(1)} %.\n` +
      'A slip can be told when, without any scatter, it would have a probability of 95 % or more.',
    ...(ofReadings.length > 0 ? singleReadings(ofReadings) : []),
    circumstancesLine(part, `${part.seconds} s`),
  ].join('\n\n');
}

/** One reading of a sight wrong, in rounds. */
function singleReadings(figures) {
  const all = figures.find(({ about }) => about.readings === 0);
  const kinds = figures.filter((figure) => figure !== all);
  const clean = kinds.find(({ about }) => about.kind === 'clean');
  const rows = kinds.map(({ value, about }) => [
    about.kind,
    String(about.readings),
    about.kind === 'clean' ? '–' : `${about.identifiable} of ${about.trials}`,
    `${value.toFixed(1)} %`,
    about.kind === 'clean' ? '–' : `${about.sight.toFixed(1)} %`,
    about.honest,
  ]);
  const { right, told, trials, twice, twiceNamed, twiceClean } = all.about;
  const heads = [
    'Slip of one reading',
    'Readings',
    'Can be told',
    'Reading and slip first',
    'Sight first',
    'Right : claimed, where named',
  ];
  return [
    `One reading of a sight wrong, rounds of five stars with the default errors, ${trials} of each slip, ${clean.about.trials} clean.`,
    table(heads, rows),
    `One reading wrong that can be told: reading and slip named first in ${all.value.toFixed(1)} % (${right} of ${told}). The last column: ` +
      'in all rounds where this slip was named first, how often it was the one made, beside the mean probability claimed for it; each slip made counts as often as it usually happens.',
    `A star noted under another name in both its sights, 40 minutes apart, with three others: named in ${twiceNamed} of ${twice}; under its own name called clean in ${twiceClean} of ${twice}.`,
  ];
}
