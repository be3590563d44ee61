/** What the engine names first when one blunder is made in a sight. */
import { circumstancesLine, table } from './write.mjs';

export function slips({ slips: part }) {
  const all = part.figures.find(({ name }) => name.startsWith('all slips'));
  const kinds = part.figures.filter((figure) => figure !== all);
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
    circumstancesLine(part, `${part.seconds} s`),
  ].join('\n\n');
}
