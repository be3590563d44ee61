import chart from './css/chart.css';
import bench from './css/bench.css';
import instrument from './css/instrument.css';
import edit from './css/edit.css';
import frame from './css/frame.css';
import residuals from './css/residuals.css';
import tables from './css/tables.css';
import sky from './css/sky.css';
import roles from './css/roles.css';
import working from './css/working.css';

/** The style of all views, for a page that wants it in its head. */
export const viewStyle = [
  roles,
  frame,
  working,
  chart,
  residuals,
  tables,
  instrument,
  bench,
  sky,
  edit,
].join('\n');

const ID = 'cocked-hat-style';

/** Puts the style into the page, once. */
export function ensureStyle(doc: Document = document): void {
  if (doc.getElementById(ID)) return;
  const style = doc.createElement('style');
  style.id = ID;
  style.textContent = viewStyle;
  doc.head.append(style);
}
