/** The table of accuracy: worst error, tolerance, comparisons, source. */
import { LEFT_OUT, ROWS } from './accuracy-rows.mjs';
import { circumstancesLine, digits, table } from './write.mjs';

/** @param {import('./accuracy-rows.mjs').Choice} choice */
const fits = ({ about }, choice) =>
  Object.entries(choice).every(([key, wanted]) =>
    typeof wanted === 'string' ? about[key] === wanted : wanted.test(String(about[key])),
  );

/** Faults of the rows against these figures: a check in two rows, a row without a check or of two units, a version nobody names. */
export function faults(figures) {
  const twice = figures.flatMap((figure) => {
    const places = [...ROWS.map((row) => row.of), ...LEFT_OUT].filter((of) => fits(figure, of));
    return places.length > 1 ? [`${figure.name} stands in ${places.length} rows`] : [];
  });
  const rows = ROWS.flatMap(({ what, of, against }) => {
    const picked = figures.filter((figure) => fits(figure, of));
    const sources = picked.map(({ about }) => about.source).join(' ');
    const versions = against.match(/\d+\.\d+(\.\d+)+|\b1\.55\b/g) ?? [];
    return [
      ...(picked.length === 0 ? [`${what}: no check`] : []),
      ...(new Set(picked.map((f) => f.unit)).size > 1 ? [`${what}: checks of two units`] : []),
      ...versions.filter((v) => !sources.includes(v)).map((v) => `${what}: no source names ${v}`),
    ];
  });
  return [...twice, ...rows];
}

/** The rows, and one of its own for each check that stands in none of them. */
function rowsFor(figures) {
  const known = [...ROWS.map(({ of }) => of), ...LEFT_OUT];
  const strays = figures.filter((figure) => !known.some((of) => fits(figure, of)));
  const own = strays.map(({ about: { group, subject, quantity, source } }) => {
    const exactly = (text) => new RegExp(`^${text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}$`);
    const of = {
      group,
      subject: exactly(subject),
      quantity: exactly(quantity),
      source: exactly(source),
    };
    return { what: `${subject}: ${quantity}`, of, against: source };
  });
  return [...ROWS, ...own].filter(({ of }) => figures.some((figure) => fits(figure, of)));
}

function row({ what, of, against }, figures) {
  const picked = figures.filter((figure) => fits(figure, of));
  const worst = Math.max(...picked.map(({ value }) => value ?? NaN));
  const most = Math.max(...picked.map(({ target }) => target.most));
  const count = picked.reduce((sum, { about }) => sum + about.comparisons, 0);
  const { unit } = picked[0];
  const shown = (n) => `${digits(n)}${/^[′″°]$/.test(unit) ? unit : ` ${UNITS[unit] ?? unit}`}`;
  const bad = picked.some(({ value, target }) => !(value <= target.most));
  return [
    what,
    `${shown(worst)}${bad ? ' **too much**' : ''}`,
    shown(most),
    count.toLocaleString('en').replace(',', ' '),
    against,
  ];
}
const UNITS = { ppm: 'parts in 10⁶', 'of 1': 'of the disc' };

export function accuracy({ accuracy: part }) {
  const wrong = faults(part.figures);
  if (wrong.length > 0)
    throw new Error(`the rows of the accuracy table do not fit the checks:\n${wrong.join('\n')}`);
  const rows = rowsFor(part.figures).map((r) => row(r, part.figures));
  return [
    table(['What', 'Worst error', 'Held to', 'Comparisons', 'Against'], rows),
    circumstancesLine(part, `${part.figures.length} checks`),
  ].join('\n\n');
}
