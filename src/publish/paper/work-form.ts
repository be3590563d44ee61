import { escapeHtml } from '../../views/escape.js';
import type { PaperLine, PaperQuestion } from './paper-questions.js';

/** Boxes to write a figure in, by its kind: what stands printed between them is the notation of the trade. */
const BOXES: Readonly<Record<string, string>> = {
  correction: '{sign}{2}.{1}′',
  arc: '{2}.{1}′',
  indexError: '{2}.{1}′ {word} the arc',
  altitude: '{2}°{2}.{1}′',
  hourAngle: '{3}°{2}.{1}′',
  declination: '{2}°{2}.{1}′ {name}',
  latitude: '{2}°{2}.{1}′ {name}',
  longitude: '{3}°{2}.{1}′ {name}',
  bearing: '{3}°',
  intercept: '{3}.{1} nm {word}',
  distance: '{3}.{1} nm',
  time: '{2}:{2}:{2} UTC',
};
/** Ruled lines to answer in words. */
const RULED = '<i class="ruled"></i>'.repeat(3);
const HINT: Readonly<Record<string, string>> = { sign: '+ −', name: '', word: '' };

/** The boxes of one line, or the words to choose from. */
function boxes(line: PaperLine): string {
  if (line.choices.length > 0)
    return line.choices
      .map((word) => `<span class="choice"><i></i>${escapeHtml(word)}</span>`)
      .join(' ');
  if (line.quantity === 'words') return RULED;
  const pattern = BOXES[line.quantity] ?? '{word}';
  return pattern.replace(
    /\{(\w+)\}|([^{}]+)/g,
    (_all, box: string | undefined, between: string | undefined) => {
      if (between !== undefined) return `<span class="between">${escapeHtml(between)}</span>`;
      const count = Number(box);
      if (count) return Array.from({ length: count }, () => '<i class="box"></i>').join('');
      return `<i class="box ${box ?? ''}">${HINT[box ?? ''] ?? ''}</i>`;
    },
  );
}

/** Marks of a line; the teacher's own affair where it is answered in words. */
const marksOf = ({ quantity, marks }: PaperLine): string =>
  quantity === 'words' ? '' : String(marks);

/** A form to work a question on: one row a line, boxes in a column, the rule of the line in small print. */
export function workForm({ lines }: PaperQuestion): string {
  const rows = lines.map(
    (line, i) =>
      `<tr><td class="no">${i + 1}</td><th scope="row">${escapeHtml(line.title)}<small>${escapeHtml(line.formula)}</small></th>` +
      `<td class="figure">${boxes(line)}</td><td class="marks">${marksOf(line)}</td></tr>`,
  );
  return (
    '<table class="form"><thead><tr><th></th><th scope="col">Line</th><th scope="col">Figure</th><th scope="col">Marks</th></tr></thead>' +
    `<tbody>${rows.join('')}</tbody></table>`
  );
}

/** The answers of a question, for the teacher. */
export function answerTable({ lines }: PaperQuestion): string {
  const rows = lines.map(
    (line, i) =>
      `<tr><td class="no">${i + 1}</td><th scope="row">${escapeHtml(line.title)}</th><td>${escapeHtml(line.expected)}</td>` +
      `<td>${escapeHtml(line.within)}</td><td>${marksOf(line)}</td></tr>`,
  );
  return (
    '<table class="answers"><thead><tr><th></th><th scope="col">Line</th><th scope="col">Figure</th><th scope="col">Within</th><th scope="col">Marks</th></tr></thead>' +
    `<tbody>${rows.join('')}</tbody></table>`
  );
}
