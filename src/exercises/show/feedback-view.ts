import { showsPoints, standingWords, type Feedback, type LineVerdict } from '../check/index.js';
import { escapeHtml } from '../../views/escape.js';
import type { MimeBundle } from '../../views/index.js';
import { LEFT } from './question-view.js';

/** The feedback as it shows in a notebook, one row a line; words and not colour alone tell right from wrong. */
export function feedbackBundle(feedback: Feedback): MimeBundle {
  const rows = feedback.lines.map((line) => row(line, line === feedback.firstWrong));
  const html = [
    `<section class="ch-feedback"><p><strong>${escapeHtml(feedback.summary)}</strong></p>`,
    `<table><thead><tr><th scope="col"${LEFT}>Line</th><th scope="col">Written</th>`,
    `<th scope="col"${LEFT}>Standing</th><th scope="col"${LEFT}>Feedback</th><th scope="col">Marks</th></tr></thead>`,
    `<tbody>${rows.join('')}</tbody>`,
    `<tfoot><tr><th scope="row" colspan="4">Marks</th><td>${feedback.marks} of ${feedback.outOf}</td></tr></tfoot></table>`,
    ...feedback.unknown.map(
      (key) => `<p>There is no line <code>${escapeHtml(key)}</code>; check its spelling.</p>`,
    ),
    '</section>',
  ].join('');
  return { 'text/html': html, 'text/plain': showsPoints() ? `${feedback.marks}` : feedback.text };
}

function row(line: LineVerdict, first: boolean): string {
  const words = [standingWords[line.standing], line.sentences.join(' ')];
  return (
    `<tr class="ch-${line.standing}${first ? ' ch-first' : ''}"><th scope="row"${LEFT}>${escapeHtml(line.title)}</th>` +
    `<td>${escapeHtml(line.written ?? '')}</td>` +
    `${words.map((text) => `<td${LEFT}>${escapeHtml(text)}</td>`).join('')}<td>${line.outOf === 0 ? '–' : `${line.marks} of ${line.outOf}`}</td></tr>`
  );
}
