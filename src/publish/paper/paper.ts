import { hasTag, textOf, type Notebook } from '../../kernel/runner/notebook.js';
import { escapeHtml } from '../../views/escape.js';
import type { EditionFacts } from '../client/page-data.js';
import { markdownHtml } from '../page/markdown.js';
import type { PaperQuestion, StudentPaper } from './paper-questions.js';
import { plottingSheet } from './plotting-sheet.js';
import { answerTable, workForm } from './work-form.js';

export const PAPER_SIZES = ['A4', 'Letter'] as const;
export type PaperSize = (typeof PAPER_SIZES)[number];

/** Pages to print: for each student the text, the questions with work forms and plotting sheets; answers only for the teacher. */
export function paperHtml(
  student: Notebook,
  papers: readonly StudentPaper[],
  facts: EditionFacts,
  {
    css,
    size,
    answers,
  }: { readonly css: string; readonly size: PaperSize; readonly answers: boolean },
): string {
  const text = student.cells
    .filter((cell) => cell.cell_type === 'markdown' && !hasTag(cell, 'screen'))
    .map((cell) => markdownHtml(textOf(cell.source)))
    .join('');
  const students = papers.map((paper) => studentPages(paper, text, facts));
  const keys = answers ? papers.map((paper) => answerPages(paper)) : [];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">
<title>${escapeHtml(facts.title)}: paper</title>
<style>@page { size: ${size} portrait; margin: 14mm 15mm; }
${css}</style>
</head>
<body>
${[...students, ...keys].join('\n')}
</body>
</html>
`;
}

const head = (student: string, code: string | undefined, right: string) =>
  `<header><span>Name: <b>${escapeHtml(student)}</b></span><span>Numbers: <b>${escapeHtml(code ?? '–')}</b></span><span>${escapeHtml(right)}</span></header>`;

function studentPages(
  { student, questions }: StudentPaper,
  text: string,
  facts: EditionFacts,
): string {
  return questions
    .map((question, i) => {
      const sheet = question.plotAt
        ? `<section class="page">${head(student, question.code, 'Plotting sheet')}${plottingSheet(question.plotAt)}</section>`
        : '';
      return (
        `<section class="page">${head(student, question.code, `Edition ${facts.version}`)}${i === 0 ? text : ''}` +
        `${given(question)}${workForm(question)}${foot(question, facts)}</section>${sheet}`
      );
    })
    .join('');
}

function given({ title, task, printed, table }: PaperQuestion): string {
  const rows = printed.map(
    ([label, value]) =>
      `<tr><th scope="row">${escapeHtml(label)}</th><td>${escapeHtml(value)}</td></tr>`,
  );
  const sights = table
    ? `<table class="sights"><caption>${escapeHtml(table.caption)}</caption><thead><tr>${table.head.map((t) => `<th scope="col">${escapeHtml(t)}</th>`).join('')}</tr></thead><tbody>${table.rows
        .map((row) => `<tr>${row.map((t) => `<td>${escapeHtml(t)}</td>`).join('')}</tr>`)
        .join('')}</tbody></table>`
    : '';
  return `<h2>${escapeHtml(title)}</h2><p>${escapeHtml(task)}</p><table class="given"><tbody>${rows.join('')}</tbody></table>${sights}`;
}

function foot({ cautions }: PaperQuestion, facts: EditionFacts): string {
  const data = Object.entries(facts.data).map(([file, sum]) => `${file} ${sum.slice(0, 12)}`);
  return (
    `${cautions.map((c) => `<p class="caution"><b>Caution.</b> ${escapeHtml(c)}</p>`).join('')}` +
    `<footer>${escapeHtml(`${facts.notebook}, edition ${facts.version}; Cocked Hat ${facts.library}; licence ${facts.licence}; data (SHA-256) ${data.join(', ')}`)}</footer>`
  );
}

function answerPages({ student, questions }: StudentPaper): string {
  return questions
    .map(
      (question) =>
        `<section class="page key">${head(student, question.code, 'Answers')}<h2>${escapeHtml(question.title)}</h2>${answerTable(question)}</section>`,
    )
    .join('');
}
