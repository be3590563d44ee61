import { logTable, SightLog } from '../../log/index.js';
import { htmlTable, plainTable } from '../../log/display/plain-table.js';
import { View } from '../live/view.js';
import { MIME, type MimeBundle } from '../mime.js';
import { editData, type EditData } from './edit-data.js';

/** How the amendments of `editLog` are written. */
export interface EditOptions {
  /** The variable that gets the amended log; `amended` unless told. */
  readonly as?: string;
}

const STILL_ROWS = 12;

export function editBundle(log: SightLog, data: EditData): MimeBundle {
  const table = logTable(log, { limit: STILL_ROWS });
  return {
    [MIME.edit]: data,
    'text/html': htmlTable(table, STILL_ROWS),
    'text/plain': plainTable(table, STILL_ROWS),
  };
}

/**
 * A sight log as a grid to be amended: `editLog({ log })`, where `log` is the variable that holds it. In JupyterLab
 * every amendment is written as a line of code into the cell below, which makes `amended` from `log`; elsewhere the code
 * is shown to be copied. State: `{ code, amendments, drafts }`.
 * @param given one sight log under the name of its variable
 * @throws RangeError for anything else, or for more than 10,000 readings
 */
export function editLog(
  given: Readonly<Record<string, SightLog>>,
  options: EditOptions = {},
): View {
  const [entry, second] =
    given instanceof SightLog ? [['log', given] as const] : Object.entries(given);
  const [name, log] = entry ?? ['', undefined];
  if (!(log instanceof SightLog) || second)
    throw new RangeError('give one sight log by the name of its variable, as in editLog({ log })');
  const names = { log: name, as: options.as ?? 'amended' };
  if (names.as === names.log)
    throw new RangeError(`the amended log needs a name of its own, not '${name}' again`);
  editData(log, names);
  return new View((viewId) => editBundle(log, editData(log, names, viewId)));
}
