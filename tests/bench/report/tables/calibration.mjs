/** How often regions hold the true position, by kind of round. */
import { isGood } from '../figures.mjs';
import { circumstancesLine, table } from './write.mjs';

const percent = (n) => n.toFixed(1);

export function calibration({ calibration: part }) {
  const shares = part.figures.filter(({ about }) => about);
  const kinds = [...new Set(shares.map(({ about }) => `${about.round}|${about.azimuths}`))];
  const rows = kinds.map((kind) => {
    const [round, azimuths] = kind.split('|');
    const of = shares.filter(({ about }) => about.round === round && about.azimuths === azimuths);
    const numbers = [...new Set(of.map(({ about }) => about.sights))];
    const cells = numbers.map((sights) => {
      const at = (level) =>
        of.find(({ about }) => about.sights === sights && about.level === level);
      return `**${sights}**: ${percent(at(50).value)} / ${percent(at(95).value)}`;
    });
    return [round, azimuths, cells.join('; ')];
  });
  const offs = part.figures.filter(({ about }) => !about);
  const worst = (level) =>
    Math.max(...offs.filter(({ name }) => name.includes(`${level} %`)).map((f) => f.value));
  const { rounds } = shares[0].about;
  const chance = (p) => 100 * Math.sqrt((p * (1 - p)) / rounds);
  const missed = offs.filter((figure) => !isGood(figure));
  return [
    table(['Round', 'Azimuths', 'Sights: 50 % region holds / 95 % region holds'], rows),
    `${rounds.toLocaleString('en').replace(',', ' ')} rounds of each of ${shares.length / 2} kinds, seeded. Worst share off: ${worst(50).toFixed(1)} points (50 %), ` +
      `${worst(95).toFixed(1)} points (95 %); chance alone moves a share by ${chance(0.5).toFixed(1)} and ${chance(0.95).toFixed(1)}, 1σ.` +
      (missed.length > 0
        ? ` **Further off than chance allows: ${missed.map((f) => f.name).join('; ')}.**`
        : ''),
    circumstancesLine(part, `${part.seconds} s`),
  ].join('\n\n');
}
