import { PracticeSession } from '../analysis/practice-session.js';
import { LogReport } from '../report.js';
import { SightLog } from '../sight-log.js';
import { logTable } from './log-table.js';
import { escapeHtml, htmlTable, plainTable } from './plain-table.js';
import { reportHtml } from './report-html.js';

/** A kernel that finds this method on a value shows what it returns, by MIME type. */
const DISPLAY = Symbol.for('Jupyter.display');
/** Rows in the still table of a saved notebook; the sortable view holds more. */
const STILL_ROWS = 12;

function install<T>(target: { prototype: T }, bundle: (value: T) => Record<string, unknown>): void {
  const value = function (this: T) {
    return bundle(this);
  };
  Object.defineProperty(target.prototype, DISPLAY, {
    configurable: true,
    enumerable: false,
    value,
  });
}

install(SightLog, (log) => {
  const data = logTable(log);
  return {
    'application/vnd.cocked-hat.log.v1+json': data,
    'text/html': htmlTable(data, STILL_ROWS),
    'text/plain': plainTable(data, STILL_ROWS),
  };
});
install(LogReport, (report) => ({
  'text/html': `<pre>${escapeHtml(report.toText())}</pre>`,
  'text/plain': report.toText(),
}));
install(PracticeSession, (session) => ({
  'text/html': reportHtml([{ title: 'Practice session', sentences: session.sentences }]),
  'text/plain': session.toText(),
}));
