import { h } from './dom.js';
import { viewStyle } from './style.js';

/** Opens the print dialogue for one view alone, in the colours of paper. */
export function printElement(element: HTMLElement, title: string): void {
  const frame = h('iframe', { 'aria-hidden': 'true', title, class: 'ch-print-frame' });
  frame.srcdoc =
    '<!doctype html><html data-ch-theme="light"><meta charset="utf-8"><body></body></html>';
  frame.addEventListener('load', () => {
    const page = frame.contentDocument;
    if (!page) return;
    page.title = title;
    page.head.append(
      Object.assign(page.createElement('style'), {
        textContent: `${viewStyle}\n@page{margin:12mm}body{margin:0}.ch{max-width:none}`,
      }),
    );
    page.body.append(page.importNode(element, true));
    frame.contentWindow?.addEventListener('afterprint', () => frame.remove());
    frame.contentWindow?.print();
  });
  document.body.append(frame);
}
