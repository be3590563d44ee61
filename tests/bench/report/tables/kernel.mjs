/** The kernel beside others measured in the same run. */
import { circumstancesLine, digits, table } from './write.mjs';

const PEERS = {
  python3: 'ipykernel',
  'plain-tslab': 'plain tslab',
  'plain-deno': 'deno',
  'least-node': 'Node alone',
};

export function kernel({ kernel: part }) {
  const rows = part.figures.filter(({ peer }) => peer === null);
  const peers = [...new Set(part.figures.flatMap(({ peer }) => peer ?? []))];
  const cell = (name, peer) => {
    const beside = part.figures.find(
      (f) => f.peer === peer && f.name === `${name}, beside ${peer}`,
    );
    return beside ? `${digits(beside.about.theirs)} (ours ${digits(beside.ratio)} ×)` : '–';
  };
  return [
    table(
      ['', 'Cocked Hat', ...peers.map((peer) => PEERS[peer] ?? peer)],
      rows.map(({ name, value, unit }) => [
        unit === ': 1' ? name : `${name}, ${unit}`,
        digits(value),
        ...peers.map((peer) => cell(name, peer)),
      ]),
    ),
    circumstancesLine(part, 'medians; below 1 × is faster or smaller'),
  ].join('\n\n');
}
