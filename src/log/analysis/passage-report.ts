import * as print from '../columns/print-value.js';
import type { Estimate } from '../statistics/intervals.js';
import type { Factor } from './passage-factors.js';
import type { PassageFix, PassageFixes } from './passage-fixes.js';
import type { PassageFigures } from './passage-quality.js';
import type { PassageTerm } from './passage-model.js';
import { outlierSentences } from './practice-sentences.js';
import { counted } from '../../core/units/counted.js';
import { clear, estimateText, percent, signedMinutes, sizeOf } from './words.js';

/** One part of the report: sentences, and a table where figures want one. */
export interface ReportSection {
  readonly title: string;
  readonly sentences: readonly string[];
  readonly table?: {
    readonly heads: readonly string[];
    readonly rows: readonly (readonly string[])[];
  };
}

/** The report of a passage, section by section. */
export function passageReport(f: PassageFigures): ReportSection[] {
  return [
    overview(f),
    causes(f),
    ...f.factors.map(factorSection),
    history(f),
    influence(f),
    fixes(f),
  ];
}

/** A table on one page: levels with fewer readings than this are counted, not shown, when there are many. */
const FEW = 8;
const MANY_LEVELS = 12;

function factorSection({ factor, levels, betweenArcmin }: Factor): ReportSection {
  const shown = levels.length > MANY_LEVELS ? levels.filter((l) => l.n >= FEW) : levels;
  const hidden = levels.length - shown.length;
  return {
    title: `By ${factor}`,
    sentences: [
      betweenArcmin < 0.05
        ? 'No difference can be told beyond chance.'
        : `The bias varies by ${betweenArcmin.toFixed(2)}′ between them, one standard deviation beyond chance.`,
      ...(hidden ? [`${hidden} more with fewer than ${FEW} readings each are not shown.`] : []),
    ],
    table: {
      heads: [capital(factor), 'Readings', 'Mean residual', 'Pooled', 'Scatter'],
      rows: shown.map((l) => [
        l.name,
        String(l.n),
        short(l.bias, true),
        short(l.pooled, true),
        short(l.scatter, false),
      ]),
    },
  };
}

/** `+0.31′ (+0.12′ to +0.50′)`. */
function short(e: Estimate, signed: boolean): string {
  return estimateText(e, '′', 2, signed).replace(`${percent(e.level)}: `, '');
}

function overview(f: PassageFigures): ReportSection {
  const first = f.readings[0]?.row.utcMs ?? NaN;
  const last = f.readings.at(-1)?.row.utcMs ?? NaN;
  return {
    title: 'The log',
    sentences: [
      `${counted(f.readings.length, 'reading')} from ${print.utc(first).slice(0, 10)} to ${print.utc(last).slice(0, 10)} compared with ${references(f)}; ${f.outliers.length} set aside as too far from the rest.${f.unreferenced ? ` ${f.unreferenced} had nothing to be compared with.` : ''}`,
      ...outlierSentences(f),
      `Mean residual ${estimateText(f.bias, '′', 2, true)}, scatter of one reading ${estimateText(f.scatter, '′', 2)}.`,
    ],
  };
}

function references(f: PassageFigures): string {
  const kinds = [...new Set(f.readings.map((r) => r.row.reference))];
  return kinds
    .map((k) => (k === 'fix of the round' ? 'the fix of the round' : `the ${k ?? ''}`))
    .join(' and ');
}

function causes(f: PassageFigures): ReportSection {
  const { model } = f;
  return {
    title: 'What the sights say, all causes at once',
    sentences: [
      ...model.terms.map((t) => termSentence(t, model.firstInstrument)),
      ...(model.leftOut.length
        ? [`Cannot be told from the others in this log, and left out: ${model.leftOut.join(', ')}.`]
        : []),
      ...model.observerScatter.map(
        ({ of, estimate }) =>
          `One reading of ${of} scatters by ${estimateText(estimate, '′', 2)}, one standard deviation.`,
      ),
      `From session to session ${model.sessionScatterArcmin.toFixed(2)}′, from reading to reading ${model.readingScatterArcmin.toFixed(2)}′, one standard deviation.`,
    ],
  };
}

/** Half widths of an interval from which on a log says nothing of a drift: a passage of a week knows ten times better. */
const VAGUE: { readonly [kind in PassageTerm['kind']]?: number } = {
  'index drift': 2,
  'watch rate': 10,
};

/** What a log of a day or two cannot tell, instead of a number that could be anything. */
function vagueSentence({ kind, of, estimate: e, unit }: PassageTerm): string | null {
  const most = VAGUE[kind];
  if (most === undefined || clear(e) || (e.high - e.low) / 2 <= most) return null;
  const joined = unit.startsWith('′') ? unit : ` ${unit}`;
  const end = (v: number) => `${v < 0 ? '−' : '+'}${Math.abs(v).toFixed(0)}${joined}`;
  const what = kind === 'watch rate' ? 'the watch gains or loses' : `${of} reads more and more`;
  return `Too few days to tell whether ${what}: anything from ${end(e.low)} to ${end(e.high)} (${percent(e.level)}).`;
}

function termSentence({ kind, of, estimate, unit }: PassageTerm, first: string | null): string {
  const vague = vagueSentence({ kind, of, estimate, unit });
  if (vague) return vague;
  const more = estimate.value >= 0;
  const plain = unit.replace(' a day', '');
  const size = estimateText(sizeOf(estimate), plain, 2, false, unit === plain ? '' : 'a day');
  const seen = clear(estimate) ? '.' : ': zero is not excluded.';
  const sentence = {
    observer: `Observer ${of} with ${first ?? 'the sextant'} reads too ${more ? 'high' : 'low'} by ${size}`,
    instrument: `${capital(of)} reads ${more ? 'more' : 'less'} than ${first ?? 'the first'} by ${size}`,
    'index drift': `${capital(of)} reads ${more ? 'more' : 'less'} and ${more ? 'more' : 'less'}, by ${size}`,
    'watch error': `When the log begins the watch was ${more ? 'fast' : 'slow'} on what was noted by ${size}`,
    'watch rate': `The watch was ${more ? 'gaining' : 'losing'} ${size}`,
  }[kind];
  return sentence + seen;
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function history(f: PassageFigures): ReportSection {
  const signals = f.controlChart?.points.flatMap((p, i) =>
    p.signals.length ? [{ session: f.sessions[i], signals: p.signals }] : [],
  );
  const index = f.indexHistory.flatMap(({ instrument, noted, sessions }) => {
    if (noted.length === 0) return [];
    const values = noted.map((n) =>
      n.indexErrorArcmin === null ? 'none noted' : print.indexError(n.indexErrorArcmin),
    );
    return [
      `${capital(instrument || 'the sextant')}: index error noted ${values.join(', then ')}; used in ${counted(sessions.length, 'session')}.`,
    ];
  });
  const watch = f.watchHistory;
  return {
    title: 'Index, watch and control chart',
    sentences: [
      ...index,
      watch.noted.length === 0
        ? 'No watch error is noted in the log: times are taken as UTC.'
        : `${counted(watch.noted.length, 'watch error')} noted${watch.ratePerDay ? `, a rate of ${estimateText(watch.ratePerDay.slope, 's a day', 2, true)}` : ''}.`,
      f.controlChart
        ? `Means of ${f.sessions.length} sessions: centre ${signedMinutes(f.controlChart.centre)}, limits ${signedMinutes(f.controlChart.low)} to ${signedMinutes(f.controlChart.high)}; ${signals?.length ? `${counted(signals.length, 'session')} out of control` : 'none out of control'}.`
        : 'Too few sessions for a control chart.',
    ],
    ...(signals?.length
      ? {
          table: {
            heads: ['Session', 'UTC', 'Mean residual', 'Signal'],
            rows: signals.map(({ session, signals: words }) => [
              session?.round ?? '',
              print.utc(session?.utcMs ?? NaN).slice(0, 16),
              signedMinutes(session?.meanArcmin ?? NaN),
              words.join('; '),
            ]),
          },
        }
      : {}),
  };
}

function influence(f: PassageFigures): ReportSection {
  return {
    title: 'Sights that most moved their fixes',
    sentences: f.influential.length
      ? ['How far the fix of the round moves when the sight is left out.']
      : ['No round has sights enough to lose one.'],
    ...(f.influential.length
      ? {
          table: {
            heads: ['Round', 'Body', 'UTC', 'Observer', 'Moves the fix', 'Residual'],
            rows: f.influential.map((s) => [
              s.round,
              s.body,
              print.utc(s.utcMs).slice(11),
              s.observer ?? '',
              `${s.movesNm.toFixed(1)} nm`,
              s.residualArcmin === null ? '' : signedMinutes(s.residualArcmin),
            ]),
          },
        }
      : {}),
  };
}

function fixes(f: PassageFigures): ReportSection {
  const sentence = (p: PassageFixes, which: string) =>
    Number.isNaN(p.inside.value)
      ? `${counted(p.fixes.length, 'fix').replace('fixs', 'fixes')} ${which}; no track to compare with.`
      : `${which}: ${Math.round(p.inside.value * p.inside.n)} of ${p.inside.n} regions of ${percent(p.level)} hold the place on the track: ${(p.inside.value * 100).toFixed(0)} % (${percent(p.inside.level)}: ${(p.inside.low * 100).toFixed(0)} % to ${(p.inside.high * 100).toFixed(0)} %); median distance ${p.medianMissNm.toFixed(1)} nm.`;
  return {
    title: 'Fixes against the track',
    sentences: [
      sentence(f.fixes, 'As logged'),
      sentence(f.fixesWithoutOutliers, 'Without the readings set aside'),
      ...(Number.isNaN(f.fixesCorrected.inside.value)
        ? []
        : [
            `${sentence(f.fixesCorrected, 'With the errors found above taken off as well')} They were found from this same track, so the next passage is the real test.`,
          ]),
      `The ${WORST} fixes farthest off, without the readings set aside:`,
    ],
    table: {
      heads: ['Round', 'UTC', 'Sights', 'Fix', 'Region (semi-axes)', 'Off track', 'Inside'],
      rows: worst(f.fixesWithoutOutliers).map((p) => [
        p.round,
        p.instant.toString().slice(0, 16),
        String(p.sights),
        p.fix.position.toString(),
        p.fix
          .region()
          .toString()
          .replace(/^.*region | \(semi-axes\)/g, '')
          .replace(', long axis', ' along'),
        p.missNm === null ? '' : `${p.missNm.toFixed(1)} nm`,
        p.inside === null ? '' : p.inside ? 'yes' : 'no',
      ]),
    },
  };
}

const WORST = 6;

const worst = ({ fixes: all }: PassageFixes): PassageFix[] =>
  [...all].sort((a, b) => (b.missNm ?? -1) - (a.missNm ?? -1)).slice(0, WORST);
