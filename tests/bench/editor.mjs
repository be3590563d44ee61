/** The editor of the log with 10,000 readings beside the same grid library with 100 plain rows: scrolling and entering. */
import path from 'node:path';
import { build } from 'esbuild';
import { ROOT } from './bundle.mjs';

const SCROLLS = 90;
const EDITS = 15;

/** A grid of plain rows, with a field to type into and nothing behind it. */
const PLAIN = `
import { createGrid, theme } from './src/lab/render/edit/grid.ts';
class Field {
  init({ value }) { this.field = document.createElement('input'); this.field.value = value; }
  getGui() { return this.field; }
  afterGuiAttached() { this.field.focus(); }
  getValue() { return this.field.value; }
  isPopup() { return true; }
}
const host = document.createElement('div');
host.className = 'ch-edit-grid';
host.style.height = '420px';
document.body.append(host);
const names = Array.from({ length: 12 }, (_, i) => 'c' + i);
createGrid(host, {
  theme,
  columnDefs: names.map((field) => ({ field, width: 110 })),
  defaultColDef: { editable: true, cellEditor: Field, cellEditorPopup: true },
  rowData: Array.from({ length: 100 }, (_, r) => Object.fromEntries(names.map((n, i) => [n, r + '.' + i]))),
});
window.cockedHatViews = Promise.resolve([]);
`;

/** @param {string} outfile where the script of the plain grid goes */
export const buildPlainGrid = (outfile) =>
  build({
    stdin: { contents: PLAIN, resolveDir: path.resolve(ROOT), loader: 'js' },
    bundle: true,
    minify: true,
    outfile,
    logLevel: 'error',
  });

/** Milliseconds a frame while a page of a grid scrolls 200 pixels a frame, and from Enter to the frame that shows an entry; medians. */
export async function scrollAndEnter(browser, url, column) {
  const tab = await browser.newPage({ viewport: { width: 1100, height: 900 } });
  await tab.goto(url);
  await tab.evaluate('window.cockedHatViews');
  await tab.locator('.ch-edit-grid .ag-row').first().waitFor();
  const scroll = await tab.evaluate(async (moves) => {
    const frame = () => new Promise((done) => requestAnimationFrame(done));
    const list = [...document.querySelectorAll('.ch-edit-grid *')];
    const body = list.find(
      (e) => e.scrollHeight > e.clientHeight + 1000 && getComputedStyle(e).overflowY !== 'visible',
    );
    const most = body.scrollHeight - body.clientHeight;
    const taken = [];
    await frame();
    let last = performance.now();
    for (let i = 1; i <= moves; i++) {
      body.scrollTop = (i * 200) % most;
      await frame();
      const now = performance.now();
      taken.push(now - last);
      last = now;
    }
    body.scrollTop = 0;
    await frame();
    return taken.sort((a, b) => a - b)[Math.floor(moves / 2)];
  }, SCROLLS);
  const times = [];
  for (let i = 0; i < EDITS; i++) {
    await tab
      .locator(`.ch-edit-grid .ag-row[row-index="${i % 8}"] .ag-cell[col-id="${column}"]`)
      .dblclick();
    const field = tab.locator('.ag-popup input, .ch-edit-entry input').first();
    await field.fill(`entry ${i}`);
    times.push(
      await field.evaluate(async (input) => {
        const frame = () => new Promise((done) => requestAnimationFrame(done));
        await frame();
        const start = performance.now();
        input.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
        await frame();
        await new Promise((done) => setTimeout(done));
        return performance.now() - start;
      }),
    );
  }
  await tab.close();
  return { scroll, entry: times.sort((a, b) => a - b)[Math.floor(EDITS / 2)] };
}
