import { escapeHtml } from './escape.js';

/** A small table: heads and cells, the first column a text, the others figures. */
export interface PlainTable {
  readonly caption: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** The table as text, columns aligned. */
export function tableText({ caption, heads, rows }: PlainTable): string {
  const all = [heads, ...rows];
  const widths = heads.map((_, i) => Math.max(...all.map((r) => [...(r[i] ?? '')].length)));
  const line = (r: readonly string[]) =>
    r
      .map((c, i) => {
        const gap = ' '.repeat(Math.max(0, (widths[i] ?? 0) - [...c].length));
        return i === 0 ? c + gap : gap + c;
      })
      .join('  ');
  return [...(caption ? [caption] : []), ...all.map(line)].join('\n');
}

/** A time or a position stays on its line; a head or a sentence breaks. */
const isWhole = (tag: string, text: string) =>
  tag === 'td' && /\d .*\d|[′°] [NSEW]/.test(text) && text.length <= 28;

/** The table as HTML without scripts; text escaped. */
export function tableHtml({ caption, heads, rows }: PlainTable): string {
  const cell = (tag: string, text: string, i: number) =>
    `<${tag} style="padding:3px 8px;text-align:${i ? 'right' : 'left'};font-variant-numeric:tabular-nums${isWhole(tag, text) ? ';white-space:nowrap' : ''}"${tag === 'th' ? ' scope="col"' : ''}>${escapeHtml(text)}</${tag}>`;
  return [
    '<table style="border-collapse:collapse;margin:8px 0 8px 5px">',
    caption
      ? `<caption style="text-align:left;caption-side:top;padding-bottom:2px"><b>${escapeHtml(caption)}</b></caption>`
      : '',
    `<thead><tr>${heads.map((h, i) => cell('th', h, i)).join('')}</tr></thead><tbody>`,
    ...rows.map((r) => `<tr>${r.map((c, i) => cell('td', c, i)).join('')}</tr>`),
    '</tbody></table>',
  ].join('');
}
