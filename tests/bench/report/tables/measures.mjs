/** Speed and size: figure, target, peer, each as its part gave it. */
import { isGood } from '../figures.mjs';
import { circumstancesLine, digits, table } from './write.mjs';

function limit(figure) {
  const { target } = figure;
  if (target === null) return '–';
  const [word, n] = 'most' in target ? ['at most', target.most] : ['at least', target.least];
  return `${word} ${digits(n)}${isGood(figure) ? '' : ' **missed**'}`;
}

const beside = ({ peer, ratio }) => (peer === null ? '–' : `${digits(ratio)} × ${peer}`);

/** A table of the figures of one part, with the line that says when and where. */
export const measures = (name, what) => (kept) => {
  const part = kept[name];
  const rows = part.figures.map((f) => [
    f.name,
    `${digits(f.value)} ${f.unit}`,
    limit(f),
    beside(f),
  ]);
  return [
    table(['What', 'Measured', 'Held to', 'Ours to the peer’s'], rows),
    circumstancesLine(part, what),
  ].join('\n\n');
};

/** The places of the sky: one row a body, with both peers. */
export function sky({ sky: part }) {
  const own = part.figures.filter(({ about }) => about);
  const rows = own.map((f) => {
    const other = part.figures.find(({ name }) => name === `${f.name}, beside skyfield`);
    return [
      f.about.body,
      digits(f.value),
      digits(f.about.values),
      `${digits(f.ratio)} ×`,
      `${digits(other.ratio)} ×`,
    ];
  });
  return [
    table(
      [
        'Apparent places a second',
        'Kernel',
        'As values',
        'To astronomy-engine',
        'To skyfield, vectorised',
      ],
      rows,
    ),
    circumstancesLine(part, 'each place at a new epoch; more is faster'),
  ].join('\n\n');
}
