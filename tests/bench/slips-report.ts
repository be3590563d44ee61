import { seededRandom } from 'cocked-hat';
import { figure, give, say } from './report/figures.mjs';
import {
  KINDS,
  measureKind,
  SIGMA_ARCMIN,
  shareRight,
  type Outcome,
  type SlipRow,
} from './slips-cases.js';
import {
  measureReadings,
  READING_KINDS,
  rightWhereNamed,
  type ReadingRow,
} from './slips-readings.js';
import { measureTwice } from './slips-twice.js';

/** Simulates slips of every kind and prints the confusion table; true when the promise is kept. */
export function printSlips(wanted: number): boolean {
  const rows = KINDS.map((kind) => measureKind(kind, wanted, seededRandom));
  const clean = measureKind('clean', wanted * 10, seededRandom);
  say(
    `Single sights at a known place, scatter ${SIGMA_ARCMIN}′ (1σ), ${wanted} of each slip, ${clean.trials} clean.\n`,
  );
  say('| Slip made | Can be told | Named first | Otherwise named first |');
  say('|---|---|---|---|');
  for (const r of [...rows, clean]) {
    const told = r.kind === 'clean' ? '–' : `${r.identifiable} of ${r.trials}`;
    say(`| ${r.kind} | ${told} | ${percent(shareRight(r))} | ${others(r)} |`);
  }
  const told = rows.reduce((s, r) => s + r.identifiable, 0);
  const right = rows.reduce((s, r) => s + (r.first.get(r.kind) ?? 0), 0);
  say(
    `\nAll slips that can be told: ${percent(right / told)} named first (${right} of ${told}); clean sights called clean: ${percent(shareRight(clean))}.`,
  );
  say('A slip can be told when, without any scatter, it would have a probability of 95 % or more.');
  const single = measureSingleReadings(Math.max(1, Math.round(wanted / 5)));
  give([
    ...[...rows, clean].map(figureOf),
    figure({
      name: 'all slips that can be told, named first',
      value: (100 * right) / told,
      unit: '%',
      target: { least: 90 },
      about: { right, told, trials: wanted },
    }),
    ...single.figures,
  ]);
  return right / told >= 0.9 && shareRight(clean) >= 0.99 && single.good;
}

/** Slips in one reading of a sight, in rounds of five stars. */
function measureSingleReadings(wanted: number) {
  say(
    `\nOne reading wrong, rounds of five stars with the default errors, ${wanted} of each slip, ${wanted * 3} clean.\n`,
  );
  say(
    '| Slip of one reading | Of | Can be told | Reading and slip first | Sight first | Right : claimed, where named |',
  );
  say('|---|---|---|---|---|---|');
  const rows = [2, 3].flatMap((readings) => {
    const ofReadings = ([...READING_KINDS, 'clean'] as const).map((kind) =>
      measureReadings(kind, readings, kind === 'clean' ? wanted * 3 : wanted, seededRandom),
    );
    return ofReadings.map((row) => ({ ...row, honest: honest(row, ofReadings) }));
  });
  for (const r of rows) {
    const [told, sight] =
      r.kind === 'clean'
        ? ['–', '–']
        : [`${r.identifiable} of ${r.trials}`, percent(r.sight / r.identifiable)];
    say(
      `| ${r.kind} | ${r.readings} | ${told} | ${percent(r.first / r.identifiable)} | ${sight} | ${r.honest} |`,
    );
  }
  const sum = (list: readonly ReadingRow[], of: 'first' | 'identifiable') =>
    list.reduce((s, r) => s + r[of], 0);
  const [slips, clean] = [
    rows.filter((r) => r.kind !== 'clean'),
    rows.filter((r) => r.kind === 'clean'),
  ];
  const [right, told] = [sum(slips, 'first'), sum(slips, 'identifiable')];
  const calledClean = sum(clean, 'first') / sum(clean, 'identifiable');
  say(
    `\nReadings that can be told: ${percent(right / told)} named first with their slip (${right} of ${told}); clean rounds called clean: ${percent(calledClean)}.`,
  );
  const twice = measureTwice(wanted, seededRandom);
  say(
    `A star noted under another name in both its sights, 40 minutes apart, with three others: named in ${twice.first} of ${twice.trials}; under its own name called clean in ${twice.clean} of ${twice.trials}.`,
  );
  const figures = [
    ...rows.map(readingFigure),
    figure({
      name: 'one reading wrong that can be told, reading and slip named first',
      value: (100 * right) / told,
      unit: '%',
      target: { least: 90 },
      about: {
        right,
        told,
        trials: wanted,
        readings: 0,
        twice: twice.trials,
        twiceNamed: twice.first,
        twiceClean: twice.clean,
      },
    }),
  ];
  const twiceGood = twice.first / twice.trials >= 0.9 && twice.clean / twice.trials >= 0.99;
  return { figures, good: right / told >= 0.9 && calledClean >= 0.99 && twiceGood };
}

function honest({ kind }: ReadingRow, rows: readonly ReadingRow[]): string {
  if (kind === 'clean') return '–';
  const { right, claimed } = rightWhereNamed(rows, kind);
  return `${percent(right)} : ${percent(claimed)}`;
}

function readingFigure(r: ReadingRow & { honest: string }) {
  const { kind, readings, identifiable, trials, honest } = r;
  return figure({
    name: `one reading of ${readings}: ${kind}`,
    value: (100 * r.first) / identifiable,
    unit: '%',
    target: kind === 'clean' ? { least: 99 } : null,
    about: {
      kind,
      readings,
      identifiable,
      trials,
      sight: (100 * r.sight) / identifiable,
      honest,
    },
  });
}

function figureOf(r: SlipRow) {
  const { kind, identifiable, trials } = r;
  const target = kind === 'clean' ? { least: 99 } : null;
  const about = { kind, identifiable, trials, others: others(r) };
  return figure({ name: kind, value: 100 * shareRight(r), unit: '%', target, about });
}

const percent = (x: number) => `${(100 * x).toFixed(1)} %`;
function others(r: SlipRow): string {
  const list = [...r.first].filter(([k]) => k !== r.kind).sort((a, b) => b[1] - a[1]);
  return list.map(([k, n]: [Outcome, number]) => `${k} ${n}`).join(', ') || '–';
}
