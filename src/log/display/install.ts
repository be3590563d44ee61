import { PracticeSession } from '../analysis/practice-session.js';
import { LogReport } from '../report.js';
import { SightLog } from '../sight-log.js';
import { logReportHtml } from './log-report-html.js';
import { logTable } from './log-table.js';
import { installDisplay } from './install-display.js';
import { htmlTable, plainTable } from './plain-table.js';
import { partsHtml } from './report-html.js';

/** Rows in the still table of a saved notebook; the sortable view holds more. */
const STILL_ROWS = 12;

installDisplay(SightLog, (log) => {
  const data = logTable(log);
  return {
    'application/vnd.cocked-hat.log.v1+json': data,
    'text/html': htmlTable(data, STILL_ROWS),
    'text/plain': plainTable(data, STILL_ROWS),
  };
});
installDisplay(LogReport, (report) => ({
  'text/html': logReportHtml(report),
  'text/plain': report.toText(),
}));
installDisplay(PracticeSession, (session) => ({
  'text/html': partsHtml('Practice session', session.parts),
  'text/plain': session.toText(),
}));
