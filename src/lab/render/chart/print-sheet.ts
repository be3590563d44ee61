import { svgMarkup } from '../../../views/svg/svg-node.js';
import type { Sheet } from '../../../views/chart/sheet.js';
import { h } from '../dom.js';

/** The sheet as a page of its own, black on white, whatever the theme. */
export function sheetPage(sheet: Sheet): string {
  return `<!doctype html><meta charset="utf-8"><title>Plotting sheet</title><style>
@page{size:${sheet.paper} portrait;margin:0}
html{--ch-ink:#000;--ch-faint:#444;--ch-rule:#bbb;--ch-paper:#fff;--ch-accent:#9a0f68;--ch-region:#0000001a;--ch-region-edge:#000;--ch-rejected:#666;--ch-hue-1:#000;--ch-hue-2:#000;--ch-hue-3:#000;--ch-hue-4:#000;--ch-hue-5:#000;--ch-hue-6:#000}
body{margin:0;background:#fff;font-family:system-ui,"DejaVu Sans",sans-serif}svg{display:block}</style>${svgMarkup(sheet.svg)}`;
}

/** Opens the print dialogue for a sheet. */
export function printSheet(sheet: Sheet): void {
  const frame = h('iframe', {
    'aria-hidden': 'true',
    title: 'Plotting sheet',
    class: 'ch-print-frame',
  });
  frame.srcdoc = sheetPage(sheet);
  frame.addEventListener('load', () => {
    frame.contentWindow?.addEventListener('afterprint', () => frame.remove());
    frame.contentWindow?.print();
  });
  document.body.append(frame);
}
