import { escapeHtml } from '../escape.js';
import type { MimeBundle } from '../mime.js';

/** What a value says of itself: a heading, named figures, and sentences about them. */
export interface Facts {
  readonly title: string;
  readonly rows: readonly (readonly [name: string, value: string])[];
  /** What was not given and is taken to be so. */
  readonly assumed?: readonly string[];
  /** Doubts and limits, in whole sentences. */
  readonly notes?: readonly string[];
}

/** The facts as a small table and as text in two columns. */
export function factsBundle(facts: Facts): MimeBundle {
  return { 'text/html': factsHtml(facts), 'text/plain': factsText(facts) };
}

function factsText({ title, rows, assumed = [], notes = [] }: Facts): string {
  const width = Math.max(...rows.map(([name]) => name.length));
  return [
    title,
    ...rows.map(([name, value]) => `  ${name.padEnd(width)}  ${value}`),
    ...assumed.map((text) => `  assumed: ${text}`),
    ...notes.map((text) => `  ${text}`),
  ].join('\n');
}

function factsHtml({ title, rows, assumed = [], notes = [] }: Facts): string {
  const cell = 'text-align:left;vertical-align:top;padding:3px 8px';
  const line = ([name, value]: readonly [string, string]) =>
    `<tr><th scope="row" style="${cell};font-weight:normal;opacity:.8">${escapeHtml(name)}</th><td style="${cell};font-variant-numeric:tabular-nums">${escapeHtml(value)}</td></tr>`;
  const said = (text: string, tag: string) => `<div><${tag}>${escapeHtml(text)}</${tag}></div>`;
  return [
    '<div class="cocked-hat-facts" style="margin:8px 0 8px 5px">',
    `<table style="border-collapse:collapse;margin:0 0 4px"><caption style="text-align:left;caption-side:top;padding-bottom:2px"><b>${escapeHtml(title)}</b></caption>`,
    `<tbody>${rows.map(line).join('')}</tbody></table>`,
    ...assumed.map((text) => said(`assumed: ${text}`, 'i')),
    ...notes.map((text) => said(text, 'span')),
    '</div>',
  ].join('');
}
