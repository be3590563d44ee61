import { formatAngle, Instant } from '../../../core/units/index.js';
import type { BenchMark } from '../../../views/bench/bench-log.js';
import { h } from '../dom.js';

const HEADS = ['UTC', 'Read', 'True', 'Too high by', 'Swing', 'Touch', 'Late by'] as const;

const signed = (value: number, decimals: number) =>
  `${value < 0 && Number(value.toFixed(decimals)) !== 0 ? '−' : ''}${Math.abs(value).toFixed(decimals)}`;

/** The marks with what was true; swing and touch are the parts of what the reading is too high by. */
export function marksTable(marks: readonly BenchMark[]): HTMLElement {
  const row = (m: BenchMark) =>
    [
      Instant.fromEpochMs(m.notedMs).toString().slice(11),
      formatAngle(m.readingDeg),
      formatAngle(m.truthDeg),
      `${signed((m.readingDeg - m.truthDeg) * 60, 1)}′`,
      `${signed(m.tiltArcmin, 1)}′ (${signed(m.tiltDeg, 1)}°)`,
      `${signed(m.contactArcmin, 1)}′`,
      m.lagS === null ? '–' : `${signed(m.lagS, 1)} s`,
    ].map((text, i) => h('td', { class: i ? 'ch-n' : null }, text));
  return h(
    'table',
    {},
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        ...HEADS.map((head, i) => h('th', { scope: 'col', class: i ? 'ch-n' : null }, head)),
      ),
    ),
    h('tbody', {}, ...marks.map((m) => h('tr', {}, ...row(m)))),
  );
}
