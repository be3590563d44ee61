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
  give([
    ...[...rows, clean].map(figureOf),
    figure({
      name: 'all slips that can be told, named first',
      value: (100 * right) / told,
      unit: '%',
      target: { least: 90 },
      about: { right, told, trials: wanted },
    }),
  ]);
  return right / told >= 0.9 && shareRight(clean) >= 0.99;
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
